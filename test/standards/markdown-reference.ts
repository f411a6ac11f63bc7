/** The meaning of a CommonMark text, read by the reference parser and by nothing of ours. */
import { Parser, type Node } from 'commonmark'

type Meaning = string | readonly unknown[]

export const readReference = (text: string): Node => new Parser().parse(text)

export function childrenOf(node: Node): Node[] {
  const children: Node[] = []
  for (let child = node.firstChild; child; child = child.next) children.push(child)
  return children
}

/** What blocks say; one without words says nothing. */
export function meaningOfBlocks(nodes: readonly Node[]): Meaning[] {
  return nodes.map(meaningOfBlock).filter((block) => !saysNothing.has(JSON.stringify(block)))
}
const saysNothing = new Set(['["paragraph",[]]', '["paragraph",[["strong",[]]]]'])

const runs = /^(javascript|vbscript|data):/i
const isPicture = /^data:image\/(png|jpeg|gif|webp);base64,/i

/**
 * What a block says. The changes that an export makes on purpose are made here too: a heading becomes strong words,
 * raw HTML becomes words or code, and an address that could run becomes words.
 */
export function meaningOfBlock(node: Node): Meaning {
  switch (node.type) {
    case 'heading':
      return [
        'paragraph',
        [['strong', trimEnds(joinText(childrenOf(node).flatMap((n) => meaningOfInline(n, true))))]],
      ]
    case 'paragraph':
      return ['paragraph', trimEnds(joinText(childrenOf(node).flatMap((n) => meaningOfInline(n, false))))]
    case 'html_block':
      return ['code_block', '', blankLinesEmpty(node.literal ?? '')]
    case 'code_block':
      return ['code_block', (node.info ?? '').replace(/\s+/g, ' '), blankLinesEmpty(node.literal ?? '')]
    case 'list':
      return [
        'list',
        node.listType,
        node.listType === 'ordered' ? node.listStart : null,
        meaningOfBlocks(childrenOf(node)),
      ]
    default:
      return [node.type, meaningOfBlocks(childrenOf(node))]
  }
}

/** Within list items the reference parser drops the white space of blank lines of code; cmark-gfm keeps it. */
export function blankLinesEmpty(code: string): string {
  return code.replace(/^[ \t]+$/gm, '').replace(/\n+$/, '')
}

/** The reference parser trims by ECMAScript's idea of white space, where CommonMark names only spaces and tabs. */
export function trimEnds(words: readonly Meaning[]): Meaning[] {
  return words
    .map((one, i) => {
      if (typeof one !== 'string') return one
      const start = i === 0 ? one.trimStart() : one
      return i === words.length - 1 ? start.trimEnd() : start
    })
    .filter((one) => one !== '')
}

export function meaningOfInline(node: Node, isInStrong: boolean): Meaning[] {
  const inner = (): Meaning[] => joinText(childrenOf(node).flatMap((n) => meaningOfInline(n, isInStrong)))
  switch (node.type) {
    case 'text':
    case 'html_inline':
      return [node.literal ?? '']
    case 'softbreak':
      return ['\n']
    case 'linebreak':
      return [['linebreak']]
    case 'code':
      // Parsers differ in whether a line's indentation within a code span is kept.
      return [['code', (node.literal ?? '').replace(/\s+/g, ' ').trim()]]
    case 'strong':
      return isInStrong ? inner() : [['strong', trimEnds(inner())]]
    case 'link': {
      const address = node.destination ?? ''
      return runs.test(address)
        ? [...inner(), ` (${address})`]
        : [['link', address, node.title ?? '', inner()]]
    }
    case 'image': {
      const address = node.destination ?? ''
      if (runs.test(address) && !isPicture.test(address)) return [wordsOf(node)]
      return [['image', address, node.title ?? '', wordsOf(node)]]
    }
    default:
      return [[node.type, inner()]]
  }
}

export function wordsOf(node: Node): string {
  if (node.type === 'softbreak' || node.type === 'linebreak') return '\n'
  return node.literal ?? childrenOf(node).map(wordsOf).join('')
}

/** One string for neighbouring strings; white space around a line end is not a matter of meaning. */
export function joinText(all: readonly Meaning[]): Meaning[] {
  const joined: Meaning[] = []
  for (const one of all) {
    const last = joined[joined.length - 1]
    if (typeof one === 'string' && typeof last === 'string') joined[joined.length - 1] = last + one
    else joined.push(one)
  }
  return joined
    .map((one) => (typeof one === 'string' ? one.replace(/\s*\n\s*/g, '\n') : one))
    .filter((one) => one !== '')
}
