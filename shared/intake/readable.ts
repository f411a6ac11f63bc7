/** Making of a page's content a tree that Markdown can say: no programs, no menus, absolute addresses, plain code blocks. */
import type { Element, ElementContent, Nodes } from 'hast'
import { isPictureData, maybeWebAddress } from '../markdown/addresses.ts'
import { toOneLine } from '../markdown/words.ts'
import { toPlainPre } from './code.ts'
import {
  attribute,
  blockNames,
  holdsElement,
  outermostElements,
  preNames,
  textOf,
  withChildren,
} from './elements.ts'
import { isFurniture, isMenuOfHeader, isNeverShown } from './furniture.ts'
import { maxPictureAddress } from './limits.ts'
import type { Pictures } from './pictures.ts'

export interface Reading {
  readonly base: string | undefined
  /** A page is freed from menus; what a person selected and pasted is taken whole. */
  readonly isPage: boolean
  /** Counts of what was left out, by the words that a note uses. */
  readonly leftOut: Map<string, number>
  /** The pictures that came along with the page. */
  readonly pictures?: Pictures | undefined
}

const inlineNames = new Set([
  'abbr',
  'b',
  'bdi',
  'bdo',
  'big',
  'cite',
  'code',
  'data',
  'del',
  'dfn',
  'em',
  'font',
  'i',
  'ins',
  'kbd',
  'label',
  'mark',
  'q',
  's',
  'samp',
  'small',
  'span',
  'strike',
  'strong',
  'sub',
  'sup',
  'time',
  'tt',
  'u',
  'var',
])

const codeNames = new Set(['code', 'kbd', 'samp', 'tt'])

/** The children of a node, made readable. */
export function toReadable(node: Nodes, reading: Reading): ElementContent[] {
  if (!('children' in node)) return []
  return node.children.flatMap((child): ElementContent[] => {
    if (child.type === 'text') return [child]
    return child.type === 'element' ? readElement(child, reading) : []
  })
}

function readElement(element: Element, reading: Reading): ElementContent[] {
  const { tagName } = element
  if (preNames.has(tagName)) return [toPlainPre(element)]
  if (isNeverShown(element) || (reading.isPage && isFurniture(element))) {
    countLeftOut(element, reading)
    return []
  }
  if (tagName === 'a') return readLink(element, reading)
  if (tagName === 'img') return readPicture(element, reading)
  if (tagName === 'wbr') return []
  if (tagName === 'table') return readTable(element, reading)
  const isHeader = reading.isPage && tagName === 'header'
  const children = toReadable(isHeader ? withoutMenus(element) : element, reading)
  // Markdown has no code without words: two bare backticks would show.
  if (codeNames.has(tagName) && children.every((child) => textOf(child) === '')) return []
  if (inlineNames.has(tagName) && children.some((child) => holdsElement(child, blockNames))) return children
  if (tagName === 'menu') return [withChildren({ ...element, tagName: 'ul' }, children)]
  return [withChildren(element, children)]
}

function withoutMenus(header: Element): Element {
  return withChildren(
    header,
    header.children.filter((child) => child.type !== 'element' || !isMenuOfHeader(child)),
  )
}

const countedNames: Readonly<Record<string, string>> = {
  iframe: 'embedded pages',
  object: 'embedded objects',
  embed: 'embedded objects',
  video: 'films',
  audio: 'sound recordings',
  svg: 'drawings',
  canvas: 'drawings',
  math: 'formulas',
}

function countLeftOut(element: Element, { leftOut }: Reading): void {
  const words = countedNames[element.tagName]
  if (words !== undefined) leftOut.set(words, (leftOut.get(words) ?? 0) + 1)
}

function readLink(element: Element, reading: Reading): ElementContent[] {
  const children = toReadable(element, reading)
  const href = attribute(element, 'href') ?? ''
  const address = href.trim().startsWith('#') ? undefined : maybeWebAddress(href, reading.base)
  const isLinkable = address !== undefined && !children.some((child) => holdsElement(child, blockNames))
  if (!isLinkable || (textOf(element).trim() === '' && !holdsElement(element, new Set(['img']))))
    return children
  return [{ type: 'element', tagName: 'a', properties: { href: address }, children }]
}

/** Pictures are named with their address and never fetched; one pixel without a name is there to count readers. */
function readPicture(element: Element, reading: Reading): ElementContent[] {
  const alt = toOneLine(attribute(element, 'alt') ?? '')
  const src = (attribute(element, 'src') ?? '').trim()
  const isDot = ['width', 'height'].some((side) => /^[01](?:px)?$/u.test(attribute(element, side) ?? ''))
  if (isDot && alt === '') return []
  const along = src === '' ? undefined : reading.pictures?.(src, reading.base)
  if (along !== undefined)
    return [{ type: 'element', tagName: 'img', properties: { src: along, alt }, children: [] }]
  const isKept = src.startsWith('data:') ? isPictureData(src) && src.length <= maxPictureAddress : true
  const address = src.startsWith('data:') ? src : maybeWebAddress(src, reading.base)
  if (isKept && address !== undefined)
    return [{ type: 'element', tagName: 'img', properties: { src: address, alt }, children: [] }]
  reading.leftOut.set('pictures', (reading.leftOut.get('pictures') ?? 0) + 1)
  return alt === '' ? [] : [{ type: 'text', value: alt }]
}

const rows = (table: Element): Element[] => outermostElements(table, (node) => node.tagName === 'tr')
const boxes = (row: Element): Element[] =>
  outermostElements(row, (node) => node.tagName === 'td' || node.tagName === 'th').filter(
    (box) => !isNeverShown(box),
  )
const notInTables = new Set([
  ...preNames,
  'table',
  'ul',
  'ol',
  'dl',
  'blockquote',
  'hr',
  'h1',
  'h2',
  'h3',
  'h4',
  'h5',
  'h6',
])

/** Tables of Markdown hold one line in each box. A table that holds more, or has one column, was there for the layout. */
function readTable(table: Element, reading: Reading): ElementContent[] {
  const captions = outermostElements(table, (node) => node.tagName === 'caption')
  const above = captions.map((one): Element => toBlock('p', toReadable(one, reading)))
  const content = rows(table).map(boxes)
  const isLayout =
    content.every((row) => row.length <= 1) ||
    content.flat().some((box) => box.children.some((one) => holdsElement(one, notInTables)))
  if (isLayout) return [...above, ...content.flat().map((box) => toBlock('div', toReadable(box, reading)))]
  const children = toReadable(
    withChildren(
      table,
      table.children.filter((one) => !captions.includes(one as Element)),
    ),
    reading,
  )
  return [...above, withChildren(table, children)]
}

function toBlock(tagName: 'p' | 'div', children: ElementContent[]): Element {
  return { type: 'element', tagName, properties: {}, children }
}
