/**
 * Fills a gap between anchors token by token: the heaviest pairing of equal tokens in order, where each stretch without
 * partners costs much to open and little to widen (affine gaps: O. Gotoh, 1982), on both sides at once: a stretch that
 * was replaced by another is one gap and not two.
 */
import type { Gap } from './anchors.ts'
import { breakBefore, type Wording } from './wording.ts'

const OPEN = 5
const WIDEN = 0.02
/** For the strength of a break: off the cost of a gap that begins there, and on top of a pair where both sides have it. */
const AT_BREAK = [0, 0.5, 1] as const
const IMPOSSIBLE = -1e9

/** In a cell: how its gap was reached, whether its pair follows a gap, whether it is worth more as a gap. */
const way = { paired: 0, dropped: 1, inserted: 2, mask: 3, pairBehindGap: 4, isGap: 8 } as const

type Pair = (from: number, to: number) => void

/** Calls `pair` for each two tokens that belong to each other, the last ones first. Costs the product of both lengths. */
export function fillGap(gap: Gap, older: Wording, newer: Wording, pair: Pair): void {
  const { cells, width } = trace(gap, older, newer)
  let row = gap.older.end - gap.older.start
  let column = gap.newer.end - gap.newer.start
  let isInGap = (cells[row * width + column]! & way.isGap) !== 0
  while (row > 0 && column > 0) {
    const cell = cells[row * width + column]!
    if (!isInGap) {
      row--
      column--
      pair(gap.older.start + row, gap.newer.start + column)
      isInGap = (cell & way.pairBehindGap) !== 0
    } else if ((cell & way.mask) === way.dropped) row--
    else if ((cell & way.mask) === way.inserted) column--
    else isInGap = false
  }
}

/** The worths of one row: of each cell as a pair, and as part of a gap. */
interface Row {
  readonly pairs: Float64Array
  readonly gaps: Float64Array
}

function trace(
  gap: Gap,
  older: Wording,
  newer: Wording,
): { readonly cells: Uint8Array; readonly width: number } {
  const rows = gap.older.end - gap.older.start
  const width = gap.newer.end - gap.newer.start + 1
  const cells = new Uint8Array((rows + 1) * width)
  let above = firstRow(width, cells)
  let here: Row = { pairs: new Float64Array(width), gaps: new Float64Array(width) }
  for (let row = 1; row <= rows; row++) {
    fillRow(row, { gap, older, newer }, above, here, cells)
    ;[above, here] = [here, above]
  }
  return { cells, width }
}

/** Before the first tokens stands an anchor: going on from there at once opens no gap. */
function firstRow(width: number, cells: Uint8Array): Row {
  const pairs = new Float64Array(width).fill(IMPOSSIBLE)
  const gaps = new Float64Array(width)
  pairs[0] = 0
  gaps[0] = IMPOSSIBLE
  for (let column = 1; column < width; column++) {
    gaps[column] = -OPEN - WIDEN * column
    cells[column] = way.inserted
  }
  return { pairs, gaps }
}

interface Texts {
  readonly gap: Gap
  readonly older: Wording
  readonly newer: Wording
}

function fillRow(row: number, { gap, older, newer }: Texts, above: Row, here: Row, cells: Uint8Array): void {
  const width = here.pairs.length
  const from = gap.older.start + row - 1
  const [id, weight, breakHere] = [older.ids[from]!, older.weights[from]!, older.breaks[from]!]
  const breakBelow = from + 1 < gap.older.end ? older.breaks[from + 1]! : breakBefore.none
  here.pairs[0] = IMPOSSIBLE
  here.gaps[0] = -OPEN - WIDEN * row
  cells[row * width] = way.dropped
  for (let column = 1, to = gap.newer.start; column < width; column++, to++) {
    let [cell, pair] = [0, IMPOSSIBLE]
    if (id === newer.ids[to]) {
      const [beside, behindGap] = [above.pairs[column - 1]!, above.gaps[column - 1]!]
      if (behindGap > beside) cell |= way.pairBehindGap
      pair =
        Math.max(beside, behindGap) + weight + AT_BREAK[Math.min(breakHere, newer.breaks[to]!) as 0 | 1 | 2]
    }
    const nextBreak = to + 1 < gap.newer.end ? newer.breaks[to + 1]! : breakBelow
    const opened = pair - OPEN + AT_BREAK[nextBreak as 0 | 1 | 2]
    const dropped = above.gaps[column]! - WIDEN
    const inserted = here.gaps[column - 1]! - WIDEN
    const reached = Math.max(dropped, inserted, opened)
    if (reached !== opened) cell |= reached === dropped ? way.dropped : way.inserted
    if (reached > pair) cell |= way.isGap
    here.pairs[column] = pair
    here.gaps[column] = reached
    cells[row * width + column] = cell
  }
}
