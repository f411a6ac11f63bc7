/** Where the parts of a mind map stand: the root in the middle, its branches to the right and to the left of it. */
import type { Point } from './matrix.ts'

/** A part with its size in user units. */
export interface Branch {
  readonly id: string
  readonly width: number
  readonly height: number
  readonly children: readonly Branch[]
}

/** Between a part and those that hang on it, and between parts that stand over each other. */
const ACROSS = 48
const DOWN = 14

/** The middle of each part by its id. The same tree always gives the same places. */
export function placesOf(root: Branch): ReadonlyMap<string, Point> {
  const places = new Map<string, Point>([[root.id, { x: 0, y: 0 }]])
  const { right, left } = sidesOf(root.children)
  placeSide(right, root.width / 2 + ACROSS, 1, places)
  placeSide(left, root.width / 2 + ACROSS, -1, places)
  return places
}

/** Parts branches into two sides of like heights; the first ones go to the right, so that one reads on clockwise. */
export function sidesOf(branches: readonly Branch[]): {
  readonly right: readonly Branch[]
  readonly left: readonly Branch[]
} {
  const heights = branches.map(heightOf)
  const whole = heights.reduce((sum, height) => sum + height, 0)
  let [count, right] = [0, 0]
  while (count < branches.length && (count === 0 || right + heights[count]! / 2 <= whole / 2)) {
    right += heights[count]!
    count += 1
  }
  return { right: branches.slice(0, count), left: branches.slice(count) }
}

/** How much room a branch takes from top to bottom, with all that hangs on it. */
function heightOf(branch: Branch): number {
  const below = branch.children.reduce((sum, child) => sum + heightOf(child) + DOWN, -DOWN)
  return Math.max(branch.height, below)
}

function placeSide(
  branches: readonly Branch[],
  from: number,
  direction: 1 | -1,
  places: Map<string, Point>,
  middle = 0,
): void {
  const whole = branches.reduce((sum, branch) => sum + heightOf(branch) + DOWN, -DOWN)
  let top = middle - whole / 2
  for (const branch of branches) {
    const height = heightOf(branch)
    const y = top + height / 2
    places.set(branch.id, { x: direction * (from + branch.width / 2), y })
    placeSide(branch.children, from + branch.width + ACROSS, direction, places, y)
    top += height + DOWN
  }
}
