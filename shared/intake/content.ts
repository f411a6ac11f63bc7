/** Finding the part of a page that holds what it says. */
import type { Element, Root } from 'hast'
import {
  attribute,
  findElement,
  headingNames,
  holdsElement,
  outermostElements,
  preNames,
  textOf,
} from './elements.ts'
import { isFurniture, isNeverShown, isOwnOutline } from './furniture.ts'

/** A part is taken for the whole content only when it holds at least this share of the page's words. */
const shareOfMain = 0.3
const shareOfBlock = 0.9

/**
 * The element that holds the content: `main`, the only `article`, or else the innermost block that still holds
 * nearly all words, all headings of the first rank and all code.
 */
export function contentOf(tree: Root): Element | Root {
  const body = findElement(tree, new Set(['body']))
  if (!body) return tree
  const enough = weigh(body) * shareOfMain
  const mains = outermostElements(
    body,
    (node) => node.tagName === 'main' || attribute(node, 'role') === 'main',
  )
  const articles = outermostElements(body, (node) => node.tagName === 'article')
  for (const only of [mains, articles]) if (only.length === 1 && weigh(only[0]!) >= enough) return only[0]!
  return densest(body)
}

function densest(start: Element): Element {
  let block = start
  for (;;) {
    const next = block.children.find(
      (child): child is Element => child.type === 'element' && holdsNearlyAll(child, block),
    )
    if (!next || next.tagName === 'table') return block
    block = next
  }
}

const neverLeft = new Set(['h1', ...preNames])

function holdsNearlyAll(child: Element, parent: Element): boolean {
  const isPart =
    !['p', 'pre', 'ul', 'ol', 'dl', 'blockquote'].includes(child.tagName) && !headingNames.has(child.tagName)
  const weight = isPart ? weigh(child) : 0
  if (weight === 0 || weight < weigh(parent) * shareOfBlock) return false
  const at = parent.children.indexOf(child)
  return parent.children.every(
    (one, place) => one === child || one.type !== 'element' || !isOfContent(one, child, place < at),
  )
}

/** Whether what stands beside the block belongs to what the page says: its heading, its code, prose before it. */
function isOfContent(beside: Element, block: Element, isBefore: boolean): boolean {
  if (holdsElement(beside, neverLeft) || isOwnOutline(beside)) return true
  if (!isBefore || isFurniture(beside)) return false
  const isTitle = holdsElement(beside, upperHeadings) && !holdsElement(block, upperHeadings)
  return isTitle || (beside.tagName === 'p' && shareOfLinks(beside) < 0.5)
}

const upperHeadings = new Set(['h1', 'h2'])

function shareOfLinks(element: Element): number {
  const all = weigh(element)
  const linked = outermostElements(element, ({ tagName }) => tagName === 'a')
  return all === 0 ? 1 : linked.reduce((sum, one) => sum + weigh(one), 0) / all
}

/** How many letters an element shows, menus and forms apart. */
function weigh(element: Element): number {
  if (isNeverShown(element) || isFurniture(element)) return 0
  return element.children.reduce((sum, child) => {
    if (child.type === 'element') return sum + weigh(child)
    return sum + textOf(child).replace(/\s+/gu, '').length
  }, 0)
}
