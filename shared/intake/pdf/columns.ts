/** From runs of text to rows, in reading order: columns are read one after the other, each row from its beginning. */
import { firstOrder, lastOrder, toReadRows, toRows, type Segment } from './lines.ts'
import type { Flow, Row, Run } from './page.ts'
import { differences, median } from './row.ts'

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
/** Columns are looked for among so many segments: what it takes grows with their square. */
const mostSegments = 2000

function readColumns(segments: readonly Segment[], depth: number): readonly Flow[] {
  if (segments.length === 0) return []
  const isUsual = segments.length <= mostSegments
  const gutter = depth < maxCuts && isUsual ? maybeGutter(segments) : undefined
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
  const rows = segments.length <= mostSegments ? toReadRows(segments) : toRows(segments)
  const prose = rows.filter(({ isMono }) => !isMono)
  const edges = (prose.length > 0 ? prose : rows).map(({ right }) => right).sort((a, b) => a - b)
  return {
    rows,
    left: rows.reduce((least, { left }) => Math.min(least, left), Infinity),
    // A line that runs over the edge is no edge.
    right: edges[Math.min(edges.length - 1, Math.floor(edges.length * 0.95))]!,
  }
}
