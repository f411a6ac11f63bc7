/**
 * The second net: what a drawing may consist of, by name and by value. Whatever the library made of a text, nothing that
 * passes here can run, load, lead anywhere or reach out of its picture.
 */
import type { Element } from 'hast'
import { sanitize, type Schema } from 'hast-util-sanitize'
import { tokens } from './palette.ts'

const number = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/u
const length = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?(?:px|em|%)?$/u
const numbers = /^[-+.\d\se,]+$/u
const path = /^[MmLlHhVvCcSsQqTtAaZz\d\s,.+e-]*$/u
const transform = /^(?:\s*(?:translate|rotate|scale|matrix|skewX|skewY)\([-+.\d\se,]*\)\s*)*$/u
const token = new RegExp(`^var\\((?:${Object.keys(tokens).join('|')})\\)$`, 'u')
const hex = /^#(?:[0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})$/iu
const word = /^[a-z]{3,24}$/iu
const functional = /^(?:rgb|rgba|hsl|hsla)\([\d\s.,%]+\)$/iu
/** Only to something within the same drawing. */
const local = /^url\(#[\w-]+\)$/u
const id = /^[A-Za-z][\w-]*$/u

type Rules = NonNullable<Schema['attributes']>[string]
const merged = (name: string, ...patterns: readonly (RegExp | string)[]) =>
  [name, ...patterns] as [string, ...(RegExp | string)[]]

/** What any element may be given. */
const common: Rules = [
  merged('fill', token, hex, word, functional),
  merged('stroke', token, hex, word, functional),
  merged('fillOpacity', number),
  merged('strokeOpacity', number),
  merged('opacity', number),
  merged('strokeWidth', length),
  merged('strokeDashArray', numbers, 'none'),
  merged('strokeLineCap', 'butt', 'round', 'square'),
  merged('strokeLineJoin', 'miter', 'round', 'bevel'),
  merged('fillRule', 'nonzero', 'evenodd'),
  merged('transform', transform),
  merged('fontSize', length),
  merged('fontStyle', 'normal', 'italic', 'oblique'),
  merged('fontWeight', number, 'normal', 'bold', 'bolder', 'lighter'),
  merged('letterSpacing', length, 'normal'),
  merged('textAnchor', 'start', 'middle', 'end'),
  merged('textDecoration', 'none', 'underline', 'line-through'),
  merged('dominantBaseline', word, 'text-before-edge', 'text-after-edge'),
  merged('alignmentBaseline', word, 'text-before-edge', 'text-after-edge'),
  merged('paintOrder', word),
]

const place = (...names: readonly string[]): Rules => names.map((name) => merged(name, length))
const markers: Rules = ['markerEnd', 'markerMid', 'markerStart'].map((name) => merged(name, local))

const schema: Schema = {
  tagNames: [
    'svg',
    'g',
    'defs',
    'marker',
    'path',
    'rect',
    'circle',
    'ellipse',
    'line',
    'polygon',
    'polyline',
    'text',
    'tspan',
  ],
  attributes: {
    '*': common,
    svg: [merged('viewBox', numbers), ...place('width', 'height', 'x', 'y')],
    marker: [
      merged('id', id),
      merged('viewBox', numbers),
      merged('orient', number, 'auto', 'auto-start-reverse'),
      merged('markerUnits', 'userSpaceOnUse', 'strokeWidth'),
      ...place('refX', 'refY', 'markerWidth', 'markerHeight'),
    ],
    path: [merged('d', path), ...markers],
    line: [...place('x1', 'x2', 'y1', 'y2'), ...markers],
    polyline: [merged('points', numbers), ...markers],
    polygon: [merged('points', numbers)],
    rect: place('x', 'y', 'width', 'height', 'rx', 'ry'),
    circle: place('cx', 'cy', 'r'),
    ellipse: place('cx', 'cy', 'rx', 'ry'),
    text: place('x', 'y', 'dx', 'dy'),
    tspan: place('x', 'y', 'dx', 'dy'),
  },
  clobber: [],
  strip: [
    'script',
    'style',
    'foreignObject',
    'iframe',
    'image',
    'use',
    'title',
    'desc',
    'metadata',
    'symbol',
  ],
}

/** A copy of a drawing that holds only what may be in one; null where not even an `svg` is left. */
export function toSafeDrawing(drawing: unknown): Element | null {
  const safe = sanitize(drawing as Element, schema)
  return safe.type === 'element' && safe.tagName === 'svg' ? safe : null
}
