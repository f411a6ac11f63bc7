/** From runs of text to rows, in reading order: columns are read one after the other, each row from its beginning. */
import type { Flow, Row, Run } from './page.ts'

/** Runs that follow each other on a line without a wide gap. */
interface Segment {
  readonly runs: Run[]
  left: number
  right: number
  readonly y: number
  size: number
}

/** The rows of one page. Text that was drawn twice, to look bold, is taken once. */
export function toFlows(runs: readonly Run[]): readonly Flow[] {
  return readColumns(toSegments(withoutDoubles(runs)), 0)
}

function withoutDoubles(runs: readonly Run[]): readonly Run[] {
  const seen = new Map<string, Run[]>()
  return runs.filter((run) => {
    const same = seen.get(run.text) ?? []
    const near = run.size * 0.25
    const isDouble = same.some(
      ({ left, y }) => Math.abs(left - run.left) < near && Math.abs(y - run.y) < near,
    )
    if (!isDouble) seen.set(run.text, [...same.slice(-20), run])
    return !isDouble
  })
}

/** In font sizes: so wide is no space between words. */
const wideGap = 1.2

function toSegments(runs: readonly Run[]): Segment[] {
  const segments: Segment[] = []
  for (const run of runs) {
    const last = segments.at(-1)
    const gap = last ? run.left - last.right : 0
    const size = Math.max(run.size, last?.size ?? 0)
    if (last && Math.abs(run.y - last.y) < size * 0.1 && gap > -0.5 * size && gap < wideGap * size) {
      last.runs.push(run)
      last.right = Math.max(last.right, run.right)
      last.size = size
    } else segments.push({ runs: [run], left: run.left, right: run.right, y: run.y, size: run.size })
  }
  return segments
}

/** Columns within columns are looked for so often. */
const maxCuts = 6

function readColumns(segments: readonly Segment[], depth: number): readonly Flow[] {
  if (segments.length === 0) return []
  const gutter = depth < maxCuts ? maybeGutter(segments) : undefined
  if (!gutter) return [toFlow(segments)]
  const { x, top, bottom } = gutter
  const inside = segments.filter(({ y }) => y > top && y < bottom)
  const parts = [
    segments.filter(({ y }) => y <= top),
    inside.filter(({ left }) => left < x),
    inside.filter(({ left }) => left >= x),
    segments.filter(({ y }) => y >= bottom),
  ]
  return parts.flatMap((part) => readColumns(part, depth + 1))
}

interface Gutter {
  readonly x: number
  /** Baselines of the segments above and below that cross it. */
  readonly top: number
  readonly bottom: number
}

/** The white band between two columns that parts most segments: where many lines begin, and no line ends close before. */
function maybeGutter(segments: readonly Segment[]): Gutter | undefined {
  const em = median(segments.map(({ size }) => size))
  let best: { readonly gutter: Gutter; readonly count: number } | undefined
  for (const x of placesOfBeginning(segments)) {
    const crossing = segments
      .filter(({ left, right }) => left < x - 1 && right > x - 0.8 * em)
      .map(({ y }) => y)
      .sort((a, b) => a - b)
    const edges = [-Infinity, ...crossing, Infinity]
    for (let i = 1; i < edges.length; i += 1) {
      const gutter = { x: x - 1, top: edges[i - 1]!, bottom: edges[i]! }
      const inside = segments.filter(({ y }) => y > gutter.top && y < gutter.bottom)
      if (inside.length > (best?.count ?? 7) && parts(inside, gutter.x, em))
        best = { gutter, count: inside.length }
    }
  }
  return best?.gutter
}

const parts = (segments: readonly Segment[], x: number, em: number): boolean =>
  partsColumns(segments, x, em) || partsIndependent(segments, x, em)

/**
 * Whether both sides are set by themselves: hardly a line of one stands at the height of a line of the other, as the boxes of
 * a table's row always do.
 */
function partsIndependent(segments: readonly Segment[], x: number, em: number): boolean {
  const sides = [segments.filter(({ left }) => left < x), segments.filter(({ left }) => left >= x)]
  const [one, other] = sides.map((side) => toRows(side).map(({ y }) => y)) as [number[], number[]]
  if (Math.min(one.length, other.length) < linesOfIndependent) return false
  const widths = sides.map(
    (side) => Math.max(...side.map(({ right }) => right)) - Math.min(...side.map(({ left }) => left)),
  )
  if (Math.min(...widths) < 8 * em) return false
  const [few, many] = one.length < other.length ? [one, other] : [other, one]
  const level = few.filter((y) => many.some((at) => Math.abs(at - y) < 0.12 * em)).length
  return level / few.length < 0.5
}

const linesOfIndependent = 12

const linesOfColumn = 4

function placesOfBeginning(segments: readonly Segment[]): readonly number[] {
  const lefts = segments.map(({ left }) => left).sort((a, b) => a - b)
  const places: number[] = []
  for (let i = 0; i + linesOfColumn <= lefts.length; i += 1) {
    const isNew = places.length === 0 || lefts[i]! - places.at(-1)! > 2
    if (isNew && lefts[i + linesOfColumn - 1]! - lefts[i]! <= 2) places.push(lefts[i]!)
  }
  return places.slice(1)
}

/**
 * A column is wide enough for words and mostly filled with them. A table's are not: they are read row by row. So are those
 * of a table whose boxes hold lines of text, told by the gaps that run through both of its sides.
 */
function partsColumns(segments: readonly Segment[], x: number, em: number): boolean {
  const [left, right] = [segments.filter((one) => one.left < x), segments.filter((one) => one.left >= x)]
  const sides = [left, right]
  if (!sides.every((side) => isWide(side, em))) return false
  if (isDrawnBefore(left, right)) return true
  if (!sides.every(isFilled)) return false
  const all = toRows(segments)
  const rows = sides.map(toRows)
  const pitch = Math.min(...rows.map((side) => median(differences(side.map(({ y }) => y)))))
  const bands = differences(all.map(({ y }) => y)).filter((gap) => gap > pitch * 1.35).length
  return bands <= Math.max(1, Math.min(rows[0]!.length, rows[1]!.length) / 8)
}

function isWide(side: readonly Segment[], em: number): boolean {
  return toRows(side).length >= linesOfColumn && widthOf(side) >= 8 * em
}

/** Whoever set the page wrote one side to its end before the other. A table is written row by row. */
function isDrawnBefore(left: readonly Segment[], right: readonly Segment[]): boolean {
  return Math.max(...left.map(lastOrder)) < Math.min(...right.map(firstOrder))
}

const firstOrder = ({ runs }: Segment): number => runs[0]!.order
const lastOrder = ({ runs }: Segment): number => runs.at(-1)!.order

function widthOf(side: readonly Segment[]): number {
  return Math.max(...side.map(({ right }) => right)) - Math.min(...side.map(({ left }) => left))
}

function isFilled(side: readonly Segment[]): boolean {
  const rows = toRows(side)
  const width = widthOf(side)
  const mean = (of: (row: Row) => number): number => rows.reduce((sum, row) => sum + of(row), 0) / rows.length
  const ink = ({ runs }: Row): number => runs.reduce((sum, { left, right }) => sum + right - left, 0)
  return mean((row) => ink(row) / width) > 0.55 && mean((row) => row.text.length) > 16
}

function toFlow(segments: readonly Segment[]): Flow {
  const rows = toReadRows(segments)
  const prose = rows.filter(({ isMono }) => !isMono)
  const edges = (prose.length > 0 ? prose : rows).map(({ right }) => right).sort((a, b) => a - b)
  return {
    rows,
    left: rows.reduce((least, { left }) => Math.min(least, left), Infinity),
    // A line that runs over the edge is no edge.
    right: edges[Math.min(edges.length - 1, Math.floor(edges.length * 0.95))]!,
  }
}

function toRows(segments: readonly Segment[]): readonly Row[] {
  return linesOf(segments).map(rowOf)
}

function rowOf(line: readonly Segment[]): Row {
  return toRow(line.flatMap(({ runs }) => runs))
}

/** Rows from top to bottom; but the boxes of a table, where they hold several lines each, one after the other. */
function toReadRows(segments: readonly Segment[]): readonly Row[] {
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
  for (const segment of byHeight) {
    const last = rows.at(-1)
    const main = last?.reduce((one, other) => (other.size > one.size ? other : one))
    // Signs that stand a little higher or lower belong to their line.
    if (main && segment.y - main.y < 0.45 * Math.max(main.size, segment.size)) last!.push(segment)
    else rows.push([segment])
  }
  return rows
}

function toRow(unsorted: readonly Run[]): Row {
  const length = unsorted.reduce((sum, { text }) => sum + text.length, 0)
  const share = (isSo: (run: Run) => boolean): number =>
    unsorted.reduce((sum, run) => sum + (isSo(run) ? run.text.length : 0), 0) / length
  const isRightToLeft = share((run) => run.isRightToLeft) > 0.5
  const runs = [...unsorted].sort((a, b) =>
    isRightToLeft ? b.right - a.right || a.order - b.order : a.left - b.left || a.order - b.order,
  )
  const main = mainRun(runs)
  const isMono = share((run) => run.isMono) === 1
  return {
    text: textOf(runs, isRightToLeft),
    runs,
    left: Math.min(...runs.map(({ left }) => left)),
    right: Math.max(...runs.map(({ right }) => right)),
    y: main.y,
    size: main.size,
    isMono,
    isTabular: !isMono && (hasWideGap(runs) || leaders.test(runs.map(({ text }) => text).join(''))),
  }
}

/** Dots that lead the eye to a page's number. */
const leaders = /(?:\.\s?){5,}|…{2,}/u

function mainRun(runs: readonly Run[]): Run {
  const lengths = new Map<number, number>()
  for (const { size, text } of runs) lengths.set(size, (lengths.get(size) ?? 0) + text.length)
  return runs.reduce((one, other) => {
    const [a, b] = [lengths.get(one.size)!, lengths.get(other.size)!]
    return b > a ? other : one
  })
}

function hasWideGap(runs: readonly Run[]): boolean {
  return runs.some((run, i) => i > 0 && run.left - runs[i - 1]!.right > 2.5 * run.size)
}

function textOf(runs: readonly Run[], isRightToLeft: boolean): string {
  let text = ''
  for (const [i, run] of runs.entries()) {
    const before = runs[i - 1]
    if (before && isSpaceBetween(before, run, isRightToLeft)) text += ' '
    text += run.text
  }
  return text.replace(/\s+/gu, ' ').trim()
}

function isSpaceBetween(before: Run, run: Run, isRightToLeft: boolean): boolean {
  const gap = isRightToLeft ? before.left - run.right : run.left - before.right
  const size = Math.min(before.size, run.size)
  // Some fonts say their widths so oddly that spaces are told between all parts of a word.
  if (run.order === before.order + 1 && run.isSpaced) return gap > 0.08 * size
  // Runs that were drawn one after the other have their spaces told; others are only told by their places.
  return gap > (run.order === before.order + 1 ? 0.5 : 0.15) * size
}

/** The middle one; 0 of none. */
export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
}

function differences(values: readonly number[]): number[] {
  return values.slice(1).map((value, i) => value - values[i]!)
}
