/** From segments to rows, from top to bottom; the boxes of a table one after the other. */
import type { Row, Run } from './page.ts'
import { toRow } from './row.ts'

/** Runs that follow each other on a line without a wide gap. */
export interface Segment {
  readonly runs: Run[]
  left: number
  right: number
  readonly y: number
  size: number
}

export const firstOrder = ({ runs }: Segment): number => runs[0]!.order
export const lastOrder = ({ runs }: Segment): number => runs.at(-1)!.order

export function toRows(segments: readonly Segment[]): readonly Row[] {
  return linesOf(segments).map(rowOf)
}

function rowOf(line: readonly Segment[]): Row {
  return toRow(line.flatMap(({ runs }) => runs))
}

/** Rows from top to bottom; but the boxes of a table, where they hold several lines each, one after the other. */
export function toReadRows(segments: readonly Segment[]): readonly Row[] {
  return chunksOf(linesOf(segments)).flatMap((lines) =>
    lines.length > 1 && lines.length <= mostLinesOfBoxes && standApart(lines)
      ? linesAsDrawn(lines.flat()).map(rowOf)
      : lines.map(rowOf),
  )
}

/** Parts of a formula touch each other, boxes do not. */
function standApart(lines: readonly (readonly Segment[])[]): boolean {
  return lines.some((line, i) => {
    const next = lines[i + 1]?.[0]
    const gap = next ? Math.max(next.left - line[0]!.right, line[0]!.left - next.right) : 0
    return line.length > 1 || gap > 0.8 * line[0]!.size
  })
}

/** A row of boxes is no higher; where more lines were drawn in another order, that order means nothing. */
const mostLinesOfBoxes = 24

/** The shortest groups of lines such that each was drawn before the next. What runs along at either end counts alone. */
function chunksOf(lines: readonly (readonly Segment[])[]): readonly (readonly (readonly Segment[])[])[] {
  const first = lines.map((line) => Math.min(...line.map(firstOrder)))
  const last = lines.map((line) => Math.max(...line.map(lastOrder)))
  const [from, to] = bodyOf(first, last)
  const chunks: (readonly Segment[])[][] = []
  let latest = -Infinity
  for (const [i, line] of lines.entries()) {
    const rest = i < from || i >= to ? Infinity : Math.min(...first.slice(i, to))
    if (i <= from || i >= to || latest < rest) chunks.push([line])
    else chunks.at(-1)!.push(line)
    if (i >= from) latest = i === from ? last[i]! : Math.max(latest, last[i]!)
  }
  return chunks
}

const edge = 3

/** The lines between those at either end that were drawn out of turn, before or after all others. */
function bodyOf(first: readonly number[], last: readonly number[]): readonly [number, number] {
  let [from, to] = [0, first.length]
  while (from < edge && from < to && first[from]! > Math.max(...last.slice(from + 1, to), -Infinity))
    from += 1
  while (
    first.length - to < edge &&
    from < to &&
    last[to - 1]! < Math.min(...first.slice(from, to - 1), Infinity)
  )
    to -= 1
  return [from, to]
}

function linesAsDrawn(segments: readonly Segment[]): readonly (readonly Segment[])[] {
  const lines: Segment[][] = []
  for (const segment of [...segments].sort((a, b) => firstOrder(a) - firstOrder(b))) {
    const last = lines.at(-1)?.at(-1)
    const isOnLine = last && Math.abs(segment.y - last.y) < 0.45 * Math.max(last.size, segment.size)
    if (isOnLine && segment.left >= last.right - last.size * 0.5) lines.at(-1)!.push(segment)
    else lines.push([segment])
  }
  return lines
}

function linesOf(segments: readonly Segment[]): readonly (readonly Segment[])[] {
  const byHeight = [...segments].sort((a, b) => a.y - b.y || a.left - b.left)
  const rows: Segment[][] = []
  let main: Segment | undefined
  for (const segment of byHeight) {
    // Signs that stand a little higher or lower belong to their line.
    if (main && segment.y - main.y < 0.45 * Math.max(main.size, segment.size)) {
      rows.at(-1)!.push(segment)
      if (segment.size > main.size) main = segment
    } else {
      rows.push([segment])
      main = segment
    }
  }
  return rows
}
