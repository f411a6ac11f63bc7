/** Affine maps of the plane as SVG 1.1 §7.4 writes them, and boxes. Numbers are user units. */

/** x' = a·x + c·y + e, y' = b·x + d·y + f. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number]

export interface Point {
  readonly x: number
  readonly y: number
}

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export const identity: Matrix = [1, 0, 0, 1, 0, 0]
export const emptyBox: Box = { x: 0, y: 0, width: 0, height: 0 }

/** The map that does `inner` first and `outer` then. */
export function multiply(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer
  const [g, h, i, j, k, l] = inner
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f]
}

export function transformPoint([a, b, c, d, e, f]: Matrix, { x, y }: Point): Point {
  return { x: a * x + c * y + e, y: b * x + d * y + f }
}

/** The upright box around a box that was mapped. */
export function transformBox(matrix: Matrix, { x, y, width, height }: Box): Box {
  const corners = [
    { x, y },
    { x: x + width, y },
    { x, y: y + height },
    { x: x + width, y: y + height },
  ]
  return boxAround(corners.map((corner) => transformPoint(matrix, corner))) ?? emptyBox
}

/** The smallest upright box around points; undefined where there are none. */
export function boxAround(points: readonly Point[]): Box | undefined {
  if (points.length === 0) return undefined
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const { x, y } of points) {
    left = Math.min(left, x)
    top = Math.min(top, y)
    right = Math.max(right, x)
    bottom = Math.max(bottom, y)
  }
  return { x: left, y: top, width: right - left, height: bottom - top }
}

export function unite(one: Box | undefined, other: Box | undefined): Box | undefined {
  if (!one || !other) return one ?? other
  const x = Math.min(one.x, other.x)
  const y = Math.min(one.y, other.y)
  return {
    x,
    y,
    width: Math.max(one.x + one.width, other.x + other.width) - x,
    height: Math.max(one.y + one.height, other.y + other.height) - y,
  }
}

const numbers = (text: string): number[] =>
  (text.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/giu) ?? []).map(Number)

/** Numbers of a list as SVG writes them, parted by spaces or commas. */
export const toNumbers = numbers

/** The map that a `transform` attribute names; what is not understood is left out of it. */
export function toMatrix(transform: string): Matrix {
  let matrix = identity
  for (const [, name, values] of transform.matchAll(/([a-zA-Z]+)\s*\(([^)]*)\)/gu))
    matrix = multiply(matrix, toSimple(name!, numbers(values!)))
  return matrix
}

function toSimple(name: string, [p = 0, q, r, ...rest]: number[]): Matrix {
  const turn = (p * Math.PI) / 180
  switch (name) {
    case 'translate':
      return [1, 0, 0, 1, p, q ?? 0]
    case 'scale':
      return [p, 0, 0, q ?? p, 0, 0]
    case 'rotate': {
      const about: Matrix = [Math.cos(turn), Math.sin(turn), -Math.sin(turn), Math.cos(turn), 0, 0]
      if (q === undefined || r === undefined) return about
      return multiply(multiply([1, 0, 0, 1, q, r], about), [1, 0, 0, 1, -q, -r])
    }
    case 'skewX':
      return [1, 0, Math.tan(turn), 1, 0, 0]
    case 'skewY':
      return [1, Math.tan(turn), 0, 1, 0, 0]
    case 'matrix':
      return [p, q ?? 0, r ?? 0, rest[0] ?? 1, rest[1] ?? 0, rest[2] ?? 0]
    default:
      return identity
  }
}
