/** Path data (SVG 1.1 §8.3) as strokes of straight pieces, close enough to measure by. */
import type { Point } from './matrix.ts'

/** Into so many pieces a curve is cut. */
const PIECES = 16

const argumentsOf: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  a: 7,
  z: 0,
}

interface Pen {
  readonly strokes: Point[][]
  at: Point
  start: Point
  /** The last control point of a curve, for those that go on smoothly, and which kind it was. */
  control: Point | null
  kind: string
}

/** The strokes of a path: one list of points for each. What follows a mistake is left out, as the standard asks. */
export function strokesOf(data: string): readonly (readonly Point[])[] {
  const origin = { x: 0, y: 0 }
  const pen: Pen = { strokes: [], at: origin, start: origin, control: null, kind: '' }
  for (const [, letter, text] of data.matchAll(/([MmLlHhVvCcSsQqTtAaZz])([^MmLlHhVvCcSsQqTtAaZz]*)/gu)) {
    const count = argumentsOf[letter!.toLowerCase()]!
    const values = numbersIn(letter!.toLowerCase(), text!)
    if (count === 0) {
      draw(pen, letter!, [])
      continue
    }
    for (let from = 0; from + count <= values.length; from += count) {
      // Further pairs behind a move are lines.
      const isLine = from > 0 && /m/iu.test(letter!)
      draw(pen, isLine ? (letter === 'm' ? 'l' : 'L') : letter!, values.slice(from, from + count))
    }
  }
  return pen.strokes
}

const numeral = /[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/giu

/** The two flags of an arc may stand against what follows them. */
function numbersIn(letter: string, text: string): number[] {
  if (letter !== 'a') return (text.match(numeral) ?? []).map(Number)
  const spread = text.replace(
    /((?:[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?[\s,]*){3})([01])[\s,]*([01])[\s,]*/giu,
    '$1 $2 $3 ',
  )
  return (spread.match(numeral) ?? []).map(Number)
}

function draw(pen: Pen, letter: string, values: readonly number[]): void {
  const kind = letter.toLowerCase()
  const isRelative = letter === kind
  const { at } = pen
  const point = (i: number): Point => ({
    x: values[i]! + (isRelative ? at.x : 0),
    y: values[i + 1]! + (isRelative ? at.y : 0),
  })
  const smooth = (kinds: string): Point =>
    pen.control && kinds.includes(pen.kind)
      ? { x: 2 * at.x - pen.control.x, y: 2 * at.y - pen.control.y }
      : at
  let control: Point | null = null
  switch (kind) {
    case 'm':
      pen.at = pen.start = point(0)
      pen.strokes.push([pen.at])
      break
    case 'l':
      lineTo(pen, point(0))
      break
    case 'h':
      lineTo(pen, { x: values[0]! + (isRelative ? at.x : 0), y: at.y })
      break
    case 'v':
      lineTo(pen, { x: at.x, y: values[0]! + (isRelative ? at.y : 0) })
      break
    case 'c':
      control = cubicTo(pen, point(0), point(2), point(4))
      break
    case 's':
      control = cubicTo(pen, smooth('cs'), point(0), point(2))
      break
    case 'q':
      control = quadraticTo(pen, point(0), point(2))
      break
    case 't':
      control = quadraticTo(pen, smooth('qt'), point(0))
      break
    case 'a':
      arcTo(pen, values, point(5))
      break
    case 'z':
      lineTo(pen, pen.start)
      break
  }
  pen.control = control
  pen.kind = kind
}

function lineTo(pen: Pen, to: Point): void {
  if (pen.strokes.length === 0 || pen.kind === 'z') pen.strokes.push([pen.at])
  pen.strokes.at(-1)!.push(to)
  pen.at = to
}

function along(pen: Pen, to: Point, at: (share: number) => Point): void {
  for (let i = 1; i < PIECES; i += 1) lineTo(pen, at(i / PIECES))
  lineTo(pen, to)
}

function cubicTo(pen: Pen, one: Point, two: Point, to: Point): Point {
  const from = pen.at
  const mix = (t: number, p: number, q: number, r: number, s: number): number =>
    (1 - t) ** 3 * p + 3 * (1 - t) ** 2 * t * q + 3 * (1 - t) * t ** 2 * r + t ** 3 * s
  along(pen, to, (t) => ({ x: mix(t, from.x, one.x, two.x, to.x), y: mix(t, from.y, one.y, two.y, to.y) }))
  return two
}

function quadraticTo(pen: Pen, control: Point, to: Point): Point {
  const from = pen.at
  const mix = (t: number, p: number, q: number, r: number): number =>
    (1 - t) ** 2 * p + 2 * (1 - t) * t * q + t ** 2 * r
  along(pen, to, (t) => ({ x: mix(t, from.x, control.x, to.x), y: mix(t, from.y, control.y, to.y) }))
  return control
}

/** From the ends to the middle, as SVG 1.1 appendix F.6.5 and F.6.6 compute it. */
function arcTo(
  pen: Pen,
  [rx = 0, ry = 0, degrees = 0, large = 0, sweep = 0]: readonly number[],
  to: Point,
): void {
  const from = pen.at
  let [a, b] = [Math.abs(rx), Math.abs(ry)]
  if (a === 0 || b === 0 || (from.x === to.x && from.y === to.y)) return lineTo(pen, to)
  const turn = (degrees * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  const half = { x: (from.x - to.x) / 2, y: (from.y - to.y) / 2 }
  const x = cos * half.x + sin * half.y
  const y = -sin * half.x + cos * half.y
  const stretch = (x / a) ** 2 + (y / b) ** 2
  if (stretch > 1) [a, b] = [a * Math.sqrt(stretch), b * Math.sqrt(stretch)]
  const under = (a * b) ** 2 - (a * y) ** 2 - (b * x) ** 2
  const root = Math.sqrt(Math.max(0, under / ((a * y) ** 2 + (b * x) ** 2))) * (large === sweep ? -1 : 1)
  const middle = { x: (root * a * y) / b, y: (-root * b * x) / a }
  const centre = {
    x: cos * middle.x - sin * middle.y + (from.x + to.x) / 2,
    y: sin * middle.x + cos * middle.y + (from.y + to.y) / 2,
  }
  const first = Math.atan2((y - middle.y) / b, (x - middle.x) / a)
  let span = Math.atan2((-y - middle.y) / b, (-x - middle.x) / a) - first
  if (sweep !== 0 && span < 0) span += 2 * Math.PI
  if (sweep === 0 && span > 0) span -= 2 * Math.PI
  along(pen, to, (t) => {
    const [u, v] = [a * Math.cos(first + t * span), b * Math.sin(first + t * span)]
    return { x: cos * u - sin * v + centre.x, y: sin * u + cos * v + centre.y }
  })
}

/** How long the strokes are together. */
export function lengthOf(strokes: readonly (readonly Point[])[]): number {
  let length = 0
  for (const stroke of strokes)
    for (let i = 1; i < stroke.length; i += 1) length += distance(stroke[i - 1]!, stroke[i]!)
  return length
}

/** The point that lies so far along the strokes; their ends where it is less than nothing or more than all. */
export function pointAlong(strokes: readonly (readonly Point[])[], way: number): Point {
  let left = Math.max(0, way)
  let last: Point = strokes[0]?.[0] ?? { x: 0, y: 0 }
  for (const stroke of strokes) {
    for (let i = 1; i < stroke.length; i += 1) {
      const [from, to] = [stroke[i - 1]!, stroke[i]!]
      const length = distance(from, to)
      if (left <= length && length > 0) {
        const share = left / length
        return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) }
      }
      left -= length
      last = to
    }
  }
  return last
}

const distance = (one: Point, other: Point): number => Math.hypot(one.x - other.x, one.y - other.y)
