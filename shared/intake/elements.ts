/** Questions about hast elements. */
import type { Element, ElementContent, Nodes } from 'hast'

/** The text of a node and all within it, as the HTML holds it. */
export function textOf(node: Nodes): string {
  if (node.type === 'text') return node.value
  return 'children' in node ? node.children.map(textOf).join('') : ''
}

/** Says whether a node is or holds an element of one of these names. */
export function holdsElement(node: Nodes, names: ReadonlySet<string>): boolean {
  if (node.type === 'element' && names.has(node.tagName)) return true
  return 'children' in node && node.children.some((child) => holdsElement(child, names))
}

/** The first element of one of these names, in document order. */
export function findElement(node: Nodes, names: ReadonlySet<string>): Element | undefined {
  if (node.type === 'element' && names.has(node.tagName)) return node
  if (!('children' in node)) return undefined
  for (const child of node.children) {
    const found = findElement(child, names)
    if (found) return found
  }
  return undefined
}

/** All elements that are wanted, in document order, none within another one. */
export function outermostElements(node: Nodes, isWanted: (element: Element) => boolean): Element[] {
  if (node.type === 'element' && isWanted(node)) return [node]
  return 'children' in node ? node.children.flatMap((child) => outermostElements(child, isWanted)) : []
}

/** An attribute as text. */
export function attribute(element: Element, name: string): string | undefined {
  const value = element.properties[name]
  if (value === undefined || value === null || value === false) return undefined
  return Array.isArray(value) ? value.join(' ') : String(value)
}

/** The names that a page's author gave an element for styling, in lower case. */
export function styleNames(element: Element): readonly string[] {
  const names = `${attribute(element, 'className') ?? ''} ${attribute(element, 'id') ?? ''}`
  return names
    .toLowerCase()
    .split(/\s+/u)
    .filter((name) => name !== '')
}

/** An element with other children. */
export function withChildren(element: Element, children: ElementContent[]): Element {
  return { ...element, children }
}

/** Elements that start a line of their own. */
export const blockNames: ReadonlySet<string> = new Set([
  'address',
  'article',
  'aside',
  'blockquote',
  'center',
  'dd',
  'details',
  'dir',
  'div',
  'dl',
  'dt',
  'fieldset',
  'figcaption',
  'figure',
  'footer',
  'form',
  'h1',
  'h2',
  'h3',
  'h4',
  'h5',
  'h6',
  'header',
  'hgroup',
  'hr',
  'li',
  'listing',
  'main',
  'menu',
  'nav',
  'ol',
  'p',
  'plaintext',
  'pre',
  'section',
  'summary',
  'table',
  'ul',
  'xmp',
])
/** Elements whose text stands as it was typed. */
export const preNames: ReadonlySet<string> = new Set(['pre', 'listing', 'plaintext', 'xmp'])
export const headingNames: ReadonlySet<string> = new Set(['h1', 'h2', 'h3', 'h4', 'h5', 'h6'])
