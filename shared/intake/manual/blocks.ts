/** Building blocks of a page's tree: paragraphs, and lists whose items may begin with a term. */
import type { BlockContent, List, ListItem, Paragraph, PhrasingContent, RootContent } from 'mdast'

export const text = (value: string): PhrasingContent => ({ type: 'text', value })

export const paragraph = (children: PhrasingContent[]): Paragraph => ({ type: 'paragraph', children })

export const paragraphOfWords = (words: string): Paragraph => paragraph([text(words.trim())])

/** Puts a block at the end, unless it holds nothing. */
export function append(children: RootContent[], block: RootContent): void {
  const isEmpty = block.type === 'paragraph' && block.children.length === 0
  if (!isEmpty) children.push(block)
}

/** Marks that stand before the items of a list without order. */
const bullet = /^(?:[•·∙◦○●▪■□–—*+o-])$/u
const number = /^(\d{1,5})\.$/u

/**
 * Puts an item at the end of a list, which is begun where none is open. A term that is only a bullet or a number becomes
 * the item's mark; any other term is the item's first paragraph, its body stands below.
 * @param body filled by the caller later; it must be the array that the caller goes on writing to
 */
export function item(
  siblings: RootContent[],
  terms: readonly PhrasingContent[][],
  body: BlockContent[],
): void {
  const mark = terms.length === 1 ? wordsOfLine(terms[0]!) : ''
  const order = number.exec(mark)
  const isMark = order !== null || bullet.test(mark)
  const list = listFor(siblings, order === null ? undefined : Number(order[1]))
  if (!isMark) {
    const term = terms.flatMap((words, i): PhrasingContent[] =>
      i === 0 ? words : [{ type: 'break' }, ...words],
    )
    if (term.length > 0) body.push(paragraph(term))
  }
  const one: ListItem = { type: 'listItem', spread: !isMark, children: body }
  list.children.push(one)
}

function listFor(siblings: RootContent[], order: number | undefined): List {
  const last = siblings.at(-1)
  const isOrdered = order !== undefined
  if (last?.type === 'list' && last.ordered === isOrdered) {
    if (!isOrdered || (last.start ?? 1) + last.children.length === order) return last
  }
  const list: List = { type: 'list', ordered: isOrdered, spread: false, children: [] }
  if (isOrdered) list.start = order
  siblings.push(list)
  return list
}

/** The words of one line's content, without marks. */
export function wordsOfLine(content: readonly PhrasingContent[]): string {
  return content
    .map((node) => ('value' in node ? node.value : 'children' in node ? wordsOfLine(node.children) : ' '))
    .join('')
    .trim()
}

/**
 * Sets how far the items of each list stand apart: a list with a term or with a second paragraph in any item is a loose
 * one (CommonMark 0.31.2 §5.3). Items without content are kept: their mark says that something was there.
 */
export function settleLists(children: readonly RootContent[]): void {
  for (const block of children) {
    if (block.type === 'blockquote') settleLists(block.children)
    if (block.type !== 'list') continue
    const isLoose = block.children.some(
      ({ children }) => children.filter(({ type }) => type !== 'list').length > 1,
    )
    block.spread = isLoose
    for (const one of block.children) {
      one.spread = isLoose
      settleLists(one.children)
    }
  }
}
