/**
 * The prose of a Markdown text: what a person reads as sentences. Code, tables, HTML, pictures and bare addresses are left out;
 * where one stands within a sentence it leaves a sign, so that the sentence keeps its shape.
 */
import type { Nodes, PhrasingContent } from 'mdast'
import { visit } from 'unist-util-visit'
import { isQuickToParse, parseWithTokens, type ParsedMarkdown } from '../../markdown/parse.ts'
import { tokensWithin } from '../../markdown/tokens.ts'

/** Stands where something was left out: U+FFFC OBJECT REPLACEMENT CHARACTER. */
export const LEFT_OUT = '\ufffc'

/** A heading, a paragraph or the text of a list's item. Its end ends a sentence. */
export interface ProseBlock {
  readonly text: string
  readonly kind: 'heading' | 'paragraph' | 'item'
  /** For each code unit of `text` its place in the source, and behind them the place of the block's end. */
  readonly places: readonly number[]
}

/** The blocks of prose, in text order. None where the text is too long to be read as Markdown. */
export function proseOf(markdown: string): ProseBlock[] {
  if (!isQuickToParse(markdown)) return []
  const parsed = parseWithTokens(markdown)
  const blocks: ProseBlock[] = []
  visit(parsed.tree, (node, _index, parent) => {
    if (node.type === 'table') return 'skip'
    if (node.type !== 'paragraph' && node.type !== 'heading') return undefined
    const kind = node.type === 'heading' ? 'heading' : parent?.type === 'listItem' ? 'item' : 'paragraph'
    blocks.push(blockOf(parsed, node.children, kind, node.position?.end.offset ?? 0))
    return 'skip'
  })
  return blocks.filter(({ text }) => text.trim() !== '')
}

function blockOf(
  parsed: ParsedMarkdown,
  children: readonly PhrasingContent[],
  kind: ProseBlock['kind'],
  end: number,
): ProseBlock {
  const text: string[] = []
  const places: number[] = []
  const add = (words: string, from: number, isLinear: boolean): void => {
    for (let i = 0; i < words.length; i++) {
      text.push(words[i]!)
      places.push(isLinear ? from + i : from)
    }
  }
  const walk = (node: Nodes): void => {
    const from = node.position?.start.offset ?? end
    if (node.type === 'text') {
      for (const token of tokensWithin(parsed.tokens, from, node.position?.end.offset ?? from))
        add(token.value, token.from, token.to - token.from === token.value.length)
    } else if (node.type === 'break') add(' ', from, true)
    else if (isLeftOut(node)) add(LEFT_OUT, from, true)
    else if ('children' in node) node.children.forEach(walk)
  }
  children.forEach(walk)
  return { text: text.join(''), kind, places: [...places, end] }
}

function isLeftOut(node: Nodes): boolean {
  if (node.type !== 'link') return ['inlineCode', 'image', 'imageReference', 'html'].includes(node.type)
  const [only, ...others] = node.children
  return only?.type === 'text' && others.length === 0 && node.url.endsWith(only.value)
}
