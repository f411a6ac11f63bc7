/** The lines that ribbons are drawn with. Pure. CSS pixels from the frame's upper left corner. */

export interface Extent {
  readonly top: number
  readonly bottom: number
}

/** So much of an extent must be seen for it to count as seen. */
const LEAST_SEEN = 4

/** The middle of what is seen of an extent in a box; -Infinity where it lies above the box, Infinity where below. */
export function seenMiddle(top: number, bottom: number, box: Extent): number {
  if (bottom < box.top + LEAST_SEEN) return Number.NEGATIVE_INFINITY
  if (top > box.bottom - LEAST_SEEN) return Number.POSITIVE_INFINITY
  return ((top > box.top ? top : box.top) + (bottom < box.bottom ? bottom : box.bottom)) / 2
}

/** Where a stroke runs from left to right: it begins at `x1`, is upright at `lane` and ends at `x2`. */
export interface Way {
  readonly x1: number
  readonly lane: number
  readonly x2: number
}

/**
 * How a stroke runs. `curve`: from a height on one side of a gap to a height on the other. `elbow`: from an end into the
 * upright trunk that all ribbons to one tab share. `arc`: out of a pane's left edge and back.
 */
export type StrokeKind = 'curve' | 'elbow' | 'arc'

/**
 * One stroke of a ribbon: a path of height 1 that is stretched and moved, so that a frame writes two numbers and no text.
 */
export interface Stroke {
  readonly kind: StrokeKind
  readonly way: Way
  /** Where it begins. */
  y: number
  /** How far down it leads from there; never 0, since nothing of no height is drawn. */
  over: number
}

/** How far an elbow bends on its way into the trunk. */
const BEND = 16
/** How far an arc reaches out of its pane. */
const DEPTH = 20
const FLAT = 0.01

/** Sets a stroke's ends. That of an elbow is where it is upright; from there on the trunk leads. */
export function span(stroke: Stroke, from: number, to: number): void {
  const over = to - from
  stroke.y = from
  stroke.over = (stroke.kind === 'elbow' ? Math.max(-BEND, Math.min(over, BEND)) : over) || FLAT
}

/** A stroke of height 1 as the `d` of an SVG path (SVG 2, §9.3). */
export function unitPath(kind: StrokeKind, { x1, lane, x2 }: Way): string {
  const [out, across] = [lane - x1, x2 - x1]
  switch (kind) {
    case 'curve':
      return `M${x1} 0c${out} 0 ${out} 1 ${across} 1`
    case 'elbow':
      return `M${x1} 0c${out} 0 ${out} 0 ${out} 1`
    case 'arc':
      return `M${x1} 0c${-HANDLE} 0 ${-HANDLE} 1 0 1`
  }
}

/** How far the handles of an arc's cubic must reach: it comes three quarters of their way. */
const HANDLE = Math.round((DEPTH * 4) / 3)

/** So many straight pieces stand for a stroke when the pointer's distance to it is asked for. */
const PIECES = 24

/** How far a point is from a stroke. */
export function distanceTo(stroke: Readonly<Stroke>, x: number, y: number): number {
  const points = pointsOf(stroke)
  let least = Number.POSITIVE_INFINITY
  for (let i = 1; i < points.length; i += 1)
    least = Math.min(least, distanceToPiece(points[i - 1]!, points[i]!, x, y))
  return least
}

type Point = readonly [x: number, y: number]

function pointsOf({ kind, way: { x1, lane, x2 }, y, over }: Readonly<Stroke>): Point[] {
  const end = y + over
  switch (kind) {
    case 'curve':
      return bezier([x1, y], [lane, y], [lane, end], [x2, end])
    case 'elbow':
      return bezier([x1, y], [lane, y], [lane, y], [lane, end])
    case 'arc':
      return bezier([x1, y], [x1 - HANDLE, y], [x1 - HANDLE, end], [x1, end])
  }
}

function bezier(a: Point, b: Point, c: Point, d: Point): Point[] {
  return Array.from({ length: PIECES + 1 }, (_, i): Point => {
    const t = i / PIECES
    const s = 1 - t
    const at = (k: 0 | 1): number =>
      s * s * s * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t * t * t * d[k]
    return [at(0), at(1)]
  })
}

function distanceToPiece([ax, ay]: Point, [bx, by]: Point, x: number, y: number): number {
  const [dx, dy] = [bx - ax, by - ay]
  const length = dx * dx + dy * dy
  const along = length === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / length))
  return Math.hypot(x - ax - along * dx, y - ay - along * dy)
}

/** The middle of a stroke, where a count stands; null of one that leads to a tab, which has a count itself. */
export function middleOf({ kind, way: { x1, lane, x2 }, y, over }: Readonly<Stroke>): Point | null {
  switch (kind) {
    case 'curve':
      return [(x1 + 6 * lane + x2) / 8, y + over / 2]
    case 'arc':
      return [x1 - DEPTH, y + over / 2]
    case 'elbow':
      return null
  }
}

/** What an end is marked with: words by a bar as high as they stand, a whole thing by a ring, lost words by a cross. */
export type EndMark = 'bar' | 'ring' | 'cross' | 'diamond'

/** Bars are at least so high. */
const LEAST_BAR = 10
/** How far the other marks reach from their middle. */
const MARK = 4

/** The mark of an end as the `d` of an SVG path. */
export function markPath(mark: EndMark, x: number, { top, bottom }: Extent): string {
  const y = (top + bottom) / 2
  switch (mark) {
    case 'bar': {
      const reach = Math.max(LEAST_BAR, bottom - top) / 2
      return `M${x} ${y - reach}V${y + reach}`
    }
    case 'ring':
      return `M${x - MARK} ${y}a${MARK} ${MARK} 0 1 0 ${2 * MARK} 0a${MARK} ${MARK} 0 1 0 ${-2 * MARK} 0`
    case 'cross':
      return `M${x - MARK} ${y - MARK}l${2 * MARK} ${2 * MARK}m0 ${-2 * MARK}l${-2 * MARK} ${2 * MARK}`
    case 'diamond':
      return `M${x - MARK} ${y}l${MARK} ${-MARK} ${MARK} ${MARK} ${-MARK} ${MARK}z`
  }
}

/** How thick a ribbon of so many links is. One that leads to a tab stays thin: many share its way. */
export function widthOf(count: number, kind: StrokeKind): number {
  if (kind === 'elbow') return trunkWidth(count)
  return Math.min(7.5, 1.75 + 1.2 * Math.log2(count))
}

/** How thick a trunk with so many links is. */
export function trunkWidth(count: number): number {
  return count > 1 ? 2.5 : 1.75
}

/** Where the `index`-th ribbon of a gap turns: neighbours turn far from each other, so that they can be told apart. */
export function laneOf(index: number, left: number, right: number): number {
  const share = (index * 0.618034) % 1
  return Math.round(left + (right - left) * (0.28 + 0.44 * share))
}
