/** The outlines of tabs as the `d` of SVG paths. Pure. CSS pixels from the tab's upper left corner. */
import type { TabPlace, TabSize } from '../tabs.ts'

const ROUND = 6

/** A sheet that grows out of its pane, so rounded on the other side alone. */
export function sheetPath(side: TabPlace['side'], { width, height }: TabSize): string {
  const [edge, inner, sweep] = side === 'left' ? [0, width - ROUND, 1] : [width, ROUND, 0]
  const out = side === 'left' ? ROUND : -ROUND
  const [top, bottom] = [0.5, height - 0.5]
  return [
    `M${edge} ${top}H${inner}`,
    `a${ROUND} ${ROUND} 0 0 ${sweep} ${out} ${ROUND}`,
    `V${bottom - ROUND}`,
    `a${ROUND} ${ROUND} 0 0 ${sweep} ${-out} ${ROUND}`,
    `H${edge}`,
  ].join('')
}

const WING = 5

/** Where the ribbons lead: up, down, into the folded pane, or to what the pane does not show now. */
export function arrowPath({ side, aside }: TabPlace, { width, height }: TabSize): string {
  const middle = width / 2
  switch (aside) {
    case 'above':
      return `M${middle - WING} ${height * 0.28 + 1}l${WING} ${-WING} ${WING} ${WING}`
    case 'below':
      return `M${middle - WING} ${height * 0.72 - 1}l${WING} ${WING} ${WING} ${-WING}`
    case 'folded': {
      const out = side === 'left' ? -WING : WING
      return `M${middle - out / 2} ${height * 0.74 - WING}l${out} ${WING} ${-out} ${WING}`
    }
    case 'elsewhere':
      return [-6, 0, 6].map((off) => `M${middle + off} ${height * 0.74}h.01`).join('')
  }
}
