/**
 * How large a piece of SVG is, computed from its attributes, since it is drawn where there is no screen.
 * Follows `getBBox` of SVG 2 §8.10: fill boxes without strokes, in the piece's own user space.
 */
import {
  boxAround,
  emptyBox,
  multiply,
  identity,
  toMatrix,
  toNumbers,
  transformBox,
  unite,
  type Box,
  type Matrix,
} from './matrix.ts'
import { lengthOf, pointAlong, strokesOf } from './path.ts'
import { isElement, type Piece, type StyleOf } from './piece.ts'
import { lengthInUnits, textBox, textLength, type TextMeasure } from './textBox.ts'

/** What measuring needs to know beside the pieces. */
export interface Measuring {
  readonly style: StyleOf
  readonly text: TextMeasure
}

/** These are never drawn where they stand. */
const unseen = new Set([
  'clipPath',
  'clippath',
  'defs',
  'desc',
  'linearGradient',
  'marker',
  'mask',
  'metadata',
  'pattern',
  'radialGradient',
  'script',
  'style',
  'symbol',
  'title',
])

/** The box of a piece in its own user space; an empty one at the origin where nothing of it is drawn. */
export function boxOf(piece: Piece, measuring: Measuring): Box {
  return maybeBox(piece, measuring) ?? emptyBox
}

function maybeBox(piece: Piece, measuring: Measuring): Box | undefined {
  const number = (name: string): number => numberOf(piece, name)
  switch (piece.localName) {
    case 'rect':
    case 'image':
    case 'foreignObject':
    case 'foreignobject':
      return { x: number('x'), y: number('y'), width: number('width'), height: number('height') }
    case 'circle':
      return round(number('cx'), number('cy'), number('r'), number('r'))
    case 'ellipse':
      return round(number('cx'), number('cy'), number('rx'), number('ry'))
    case 'line':
      return boxAround([
        { x: number('x1'), y: number('y1') },
        { x: number('x2'), y: number('y2') },
      ])
    case 'polygon':
    case 'polyline':
      return boxAround(pairs(toNumbers(piece.getAttribute('points') ?? '')))
    case 'path':
      return boxAround(strokesOf(piece.getAttribute('d') ?? '').flat())
    case 'text':
    case 'tspan':
      return textBox(piece, measuring)
    default:
      return boxOfParts(piece, measuring)
  }
}

const round = (x: number, y: number, rx: number, ry: number): Box => ({
  x: x - rx,
  y: y - ry,
  width: 2 * rx,
  height: 2 * ry,
})

function pairs(values: readonly number[]): { x: number; y: number }[] {
  const points = []
  for (let i = 0; i + 1 < values.length; i += 2) points.push({ x: values[i]!, y: values[i + 1]! })
  return points
}

function boxOfParts(piece: Piece, measuring: Measuring): Box | undefined {
  let box: Box | undefined
  for (const part of piece.childNodes) {
    if (!isElement(part) || unseen.has(part.localName)) continue
    if (measuring.style(part, 'display') === 'none') continue
    const own = maybeBox(part, measuring)
    if (own) box = unite(box, transformBox(mapOf(part), own))
  }
  return box
}

/** From a piece's own space to that of the piece around it. */
function mapOf(piece: Piece): Matrix {
  const transform = piece.getAttribute('transform')
  const own = transform ? toMatrix(transform) : identity
  if (piece.localName !== 'svg') return own
  return multiply([1, 0, 0, 1, numberOf(piece, 'x'), numberOf(piece, 'y')], own)
}

/** The box of a piece in the space of the outermost SVG, as if that were drawn at its natural size. */
export function boxOnPage(piece: Piece, measuring: Measuring): Box {
  let box = boxOf(piece, measuring)
  let at: Piece | null = piece
  while (at && isElement(at) && at.localName !== 'svg') {
    box = transformBox(mapOf(at), box)
    at = at.parentNode
  }
  return box
}

/** How far a piece of text advances (SVG 2 §11.5, `getComputedTextLength`). */
export function advanceOf(piece: Piece, measuring: Measuring): number {
  return textLength(piece, measuring)
}

/** The length of a drawn line (SVG 2 §9.7). */
export function strokeLength(piece: Piece): number {
  return lengthOf(strokesOf(outlineOf(piece)))
}

/** The point so far along a drawn line. */
export function strokePoint(piece: Piece, way: number): { readonly x: number; readonly y: number } {
  return pointAlong(strokesOf(outlineOf(piece)), way)
}

function outlineOf(piece: Piece): string {
  if (piece.localName === 'path') return piece.getAttribute('d') ?? ''
  if (piece.localName === 'line') {
    const [x1, y1, x2, y2] = ['x1', 'y1', 'x2', 'y2'].map((name) => numberOf(piece, name))
    return `M${x1},${y1}L${x2},${y2}`
  }
  return ''
}

function numberOf(piece: Piece, name: string): number {
  return lengthInUnits(piece.getAttribute(name) ?? '', 16) ?? 0
}
