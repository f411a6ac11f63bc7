/**
 * From what the library drew to a drawing of plain presentation attributes: its style sheet and ours are worked into the
 * elements (as the cascade says), colours become tokens, and what is not needed is left out. So it needs no style element,
 * looks the same wherever it is shown, and can be held to a short list of what may be in it.
 */
import type { Element, ElementContent } from 'hast'
import { selectAll } from 'hast-util-select'
import { toString } from 'hast-util-to-string'
import { visit, SKIP } from 'unist-util-visit'
import { toOwnColours } from './colours.ts'
import { declarationsOf, rulesOf, type Declaration, type Rule } from './css.ts'
import { ownRules } from './ownLook.ts'

/** What is taken over from styles. */
const presentation = new Set([
  'display',
  'dominant-baseline',
  'fill',
  'fill-opacity',
  'font-size',
  'font-style',
  'font-weight',
  'letter-spacing',
  'marker-end',
  'marker-mid',
  'marker-start',
  'opacity',
  'paint-order',
  'rx',
  'ry',
  'stroke',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-opacity',
  'stroke-width',
  'text-anchor',
  'text-decoration',
  'visibility',
])

/** Works styles and colours into a drawing, in place. @param source the text that it was drawn from */
export function workIn(svg: Element, source: string): void {
  replaceForeign(svg)
  const sheets = takeSheets(svg)
  applyStyles(svg, rulesOf(sheets.join('\n')))
  raiseGroupNames(svg)
  toOwnColours(svg, source)
  leaveOut(svg)
}

/** Names of groups come last, so that lines which lead into a group pass below them. */
function raiseGroupNames(svg: Element): void {
  visit(svg, 'element', (around) => {
    const clusters = around.children.find((child) => child.type === 'element' && isOfClass(child, 'clusters'))
    if (clusters?.type !== 'element') return
    for (const cluster of clusters.children) {
      if (cluster.type !== 'element' || cluster.properties['transform']) continue
      const names = cluster.children.filter(
        (child) => child.type === 'element' && isOfClass(child, 'cluster-label'),
      )
      cluster.children = cluster.children.filter((child) => !names.includes(child))
      around.children.push(...names)
    }
  })
}

function isOfClass({ properties }: Element, name: string): boolean {
  const { className } = properties
  return Array.isArray(className) && className.includes(name)
}

/** A block of HTML shows as its words, unless a drawn form of them stands beside it. */
function replaceForeign(svg: Element): void {
  visit(svg, 'element', (node, index, parent) => {
    if (node.tagName !== 'foreignObject' || index === undefined || parent?.type !== 'element') return
    const words = toString(node).replace(/\s+/gu, ' ').trim()
    const isDrawnToo = parent.tagName === 'switch' && parent.children.some((one) => isTag(one, 'text'))
    if (isDrawnToo || words === '') {
      parent.children.splice(index, 1)
      return [SKIP, index] as const
    }
    const [x, y, width, height] = ['x', 'y', 'width', 'height'].map((name) =>
      Number(node.properties[name] ?? 0),
    )
    parent.children[index] = {
      type: 'element',
      tagName: 'text',
      properties: {
        x: String(x! + width! / 2),
        y: String(y! + height! / 2),
        textAnchor: 'middle',
        dominantBaseline: 'central',
      },
      children: [{ type: 'text', value: words }],
    }
    return SKIP
  })
}

const isTag = (node: ElementContent, tagName: string): boolean =>
  node.type === 'element' && node.tagName === tagName

function takeSheets(svg: Element): string[] {
  const sheets: string[] = []
  visit(svg, 'element', (node, index, parent) => {
    if (node.tagName !== 'style' || index === undefined || !parent) return
    sheets.push(toString(node))
    parent.children.splice(index, 1)
    return [SKIP, index] as const
  })
  return sheets
}

type Styles = Map<Element, Map<string, Declaration>>

function applyStyles(svg: Element, rules: readonly Rule[]): void {
  const styles: Styles = new Map()
  for (const rule of [...rules, ...ownRules]) {
    if (!rule.declarations.some(isTaken)) continue
    for (const element of findAll(rule.selector, svg)) note(styles, element, rule.declarations)
  }
  visit(svg, 'element', (node) => {
    note(styles, node, declarationsOf(styleOf(node)))
    for (const [property, { value }] of styles.get(node) ?? []) node.properties[toName(property)] = value
    delete node.properties['style']
  })
}

const isTaken = ({ property }: Declaration): boolean => presentation.has(property)

function styleOf(node: Element): string {
  const { style } = node.properties
  return typeof style === 'string' ? style : ''
}

function findAll(selector: string, svg: Element): Element[] {
  try {
    return selectAll(selector, { type: 'root', children: [svg] })
  } catch {
    // Not a selector that this can read; such a rule has no say.
    return []
  }
}

function note(styles: Styles, element: Element, declarations: readonly Declaration[]): void {
  const own = styles.get(element) ?? new Map<string, Declaration>()
  for (const declaration of declarations) {
    if (!isTaken(declaration)) continue
    if (own.get(declaration.property)?.isImportant && !declaration.isImportant) continue
    own.set(declaration.property, declaration)
  }
  styles.set(element, own)
}

/** hast names attributes in camel case, a few of them with more humps than their words have. */
const oddNames: Readonly<Record<string, string>> = {
  'stroke-dasharray': 'strokeDashArray',
  'stroke-linecap': 'strokeLineCap',
  'stroke-linejoin': 'strokeLineJoin',
}
const toName = (property: string): string =>
  oddNames[property] ?? property.replace(/-([a-z])/gu, (_, letter: string) => letter.toUpperCase())

const byReference = new Set([
  'marker',
  'clipPath',
  'symbol',
  'filter',
  'linearGradient',
  'radialGradient',
  'pattern',
])

/** Takes out what nothing refers to, what has no size and what holds nothing; of ids, those that are not referred to. */
function leaveOut(svg: Element): void {
  const named = new Set<string>()
  visit(svg, 'element', (node) => {
    for (const value of Object.values(node.properties))
      for (const [, id] of String(value).matchAll(/url\(["']?#([^"')]+)["']?\)/gu)) named.add(id!)
  })
  prune(svg, named)
}

function prune(element: Element, named: ReadonlySet<string>): void {
  for (const child of element.children) if (child.type === 'element') prune(child, named)
  element.children = element.children.filter((child) => isKept(child, named))
  const { id } = element.properties
  if (typeof id === 'string' && !named.has(id)) delete element.properties['id']
}

function isKept(child: ElementContent, named: ReadonlySet<string>): boolean {
  if (child.type === 'text') return child.value !== ''
  if (child.type !== 'element') return false
  const { tagName, properties, children } = child
  if (properties['display'] === 'none' || properties['visibility'] === 'hidden') return false
  if (byReference.has(tagName)) return typeof properties['id'] === 'string' && named.has(properties['id'])
  if (['g', 'defs', 'text', 'tspan', 'switch', 'a'].includes(tagName)) return children.length > 0
  if (tagName === 'rect') return Number(properties['width']) > 0 && Number(properties['height']) > 0
  if (tagName === 'path') return typeof properties['d'] === 'string' && !properties['d'].includes('NaN')
  return true
}
