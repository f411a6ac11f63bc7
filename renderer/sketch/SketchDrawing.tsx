/** A finished drawing in the page. */
import { toJsxRuntime } from 'hast-util-to-jsx-runtime'
import { useId, useMemo, type ReactElement } from 'react'
import { Fragment, jsx, jsxs } from 'react/jsx-runtime'
import { TEXT_UNITS, type Drawn } from '../../shared/sketch/drawn.ts'
import { withIds } from '../../shared/sketch/ids.ts'

export interface SketchDrawingProps {
  readonly drawn: Drawn
  /** fit: as large as it is, smaller where there is less room. actual: as large as it is. fill: as large as there is room. */
  readonly size: 'fit' | 'actual' | 'fill'
}

export function SketchDrawing({ drawn, size }: SketchDrawingProps): ReactElement {
  const prefix = `sketch${useId().replace(/[^A-Za-z0-9]/gu, '-')}-`
  const shown = useMemo(
    () =>
      toJsxRuntime(withIds(drawn.svg, prefix), { Fragment, jsx, jsxs, space: 'svg' }) as ReactElement<object>,
    [drawn, prefix],
  )
  const [width, height] = [drawn.width / TEXT_UNITS, drawn.height / TEXT_UNITS].map(
    (units) => `${units.toFixed(3)}rem`,
  )
  return (
    <div
      // What is around it says what it shows.
      aria-hidden
      className={`st-sketch-drawing st-sketch-drawing--${size}`}
      style={{ ['--sketch-width' as string]: width, ['--sketch-height' as string]: height }}
    >
      {shown}
    </div>
  )
}

/** What a drawing shows, for those who do not see it: its kind, its title, the words in it. */
export function wordsOfDrawing({ kind, title, labels }: Drawn): string {
  const words = labels.join(', ')
  const named = title === null ? `${kind}` : `${kind}, ${title}`
  return words === '' ? named : `${named}: ${words.length > LONGEST ? `${words.slice(0, LONGEST)}…` : words}`
}
const LONGEST = 600
