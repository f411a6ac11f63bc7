/** The colours of a drawing: tokens of the program's face, and those that the diagram's own text asks for. */
import type { Element } from 'hast'
import { inkOn, maybeLuminance } from './contrast.ts'
import { asValue, isTokenValue, maybeToken, type Token } from './palette.ts'

/** Lines of a diagram's text that set colours. */
const setsColours = /^\s*(?:style|classDef|linkStyle|rect|box)\b|fill\s*:|stroke\s*:|color\s*:/u

/**
 * Gives every colour of a drawing its place in the program's face, in place. What the text sets itself stays, with an ink
 * on it that can be read; any other colour of the library becomes the token for what it colours.
 */
export function toOwnColours(svg: Element, source: string): void {
  const asked = source
    .split('\n')
    .filter((line) => setsColours.test(line))
    .join('\n')
    .toLowerCase()
  const isAsked = (colour: string): boolean => colour.length >= 3 && asked.includes(colour.toLowerCase())
  walk(svg, isAsked, { ground: undefined, isWithinMarker: false, isWithinText: false, ink: 'var(--ink)' })
}

interface Around {
  /** The luminance of the fill that the text set for what lies behind. */
  readonly ground: number | undefined
  readonly isWithinMarker: boolean
  readonly isWithinText: boolean
  readonly ink: string
}

const shapes = new Set(['rect', 'path', 'circle', 'ellipse', 'polygon'])

function walk(element: Element, isAsked: (colour: string) => boolean, around: Around): void {
  const { properties, tagName } = element
  const isText = around.isWithinText || tagName === 'text' || tagName === 'tspan'
  const isMarker = around.isWithinMarker || tagName === 'marker'
  for (const name of ['fill', 'stroke'] as const) {
    const value = properties[name]
    if (typeof value !== 'string') continue
    const own = toOwn(value, name, isText, isMarker, tagName, isAsked)
    if (own === undefined) delete properties[name]
    else properties[name] = own
  }
  let { ground } = around
  if (isText) {
    delete properties['opacity']
    // Words are not outlined, but for a rim in the colour of what lies behind them.
    if (properties['paintOrder'] !== 'stroke') delete properties['stroke']
    const fill = properties['fill']
    if (ground !== undefined && (tagName === 'text' || fill !== undefined)) {
      const isOwn = typeof fill === 'string' && !isTokenValue(fill) && fill !== 'none'
      if (!isOwn) properties['fill'] = inkOn(ground)
    }
  } else {
    ground = groundOf(element, isAsked) ?? ground
  }
  for (const child of element.children)
    if (child.type === 'element')
      walk(child, isAsked, { ...around, ground, isWithinMarker: isMarker, isWithinText: isText })
}

/** What the text colours the shape of a group with, which lies behind the group's words. */
function groundOf(element: Element, isAsked: (colour: string) => boolean): number | undefined {
  for (const child of element.children) {
    if (child.type !== 'element' || !shapes.has(child.tagName)) continue
    const { fill } = child.properties
    if (typeof fill === 'string' && isAsked(fill)) return maybeLuminance(fill)
  }
  return undefined
}

function toOwn(
  value: string,
  name: 'fill' | 'stroke',
  isText: boolean,
  isMarker: boolean,
  tagName: string,
  isAsked: (colour: string) => boolean,
): string | undefined {
  const token = maybeToken(value)
  if (token) return asValue(isText && name === 'fill' ? inkFor(token) : token)
  const plain = value.trim().toLowerCase()
  if (plain === 'none' || plain === 'transparent') return 'none'
  if (isAsked(plain)) return plain
  if (isText) return asValue('--ink')
  if (name === 'stroke') return asValue('--rule-strong')
  if (isMarker || tagName === 'line') return asValue('--ink-soft')
  return asValue((maybeLuminance(plain) ?? 0) > 0.9 ? '--paper-raised' : '--sketch-group')
}

/** Words are only ever in ink, or in the paper's colour where they stand on a strong fill. */
function inkFor(token: Token): Token {
  return token === '--paper' || token === '--ink-soft' ? token : '--ink'
}
