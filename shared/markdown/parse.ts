/**
 * Reading Markdown (CommonMark 0.31.2 with the extensions of GFM 0.29) into an mdast tree with positions.
 * Every reader of the program uses this one dialect, so that what is shown, exported and mapped is the same.
 */
import type { Nodes, Root } from 'mdast'
import { fromMarkdown } from 'mdast-util-from-markdown'
import { gfmFromMarkdown } from 'mdast-util-gfm'
import { gfm } from 'micromark-extension-gfm'
import { visit } from 'unist-util-visit'
import { createTokenRecord, type TokenRecord } from './tokens.ts'

const syntax = gfm()
/**
 * Without the tree transforms: these look for further addresses in text that the tokenizer took for plain,
 * and the nodes that they make have no position in the source.
 */
const treeBuilders = gfmFromMarkdown().map(({ transforms: _, ...builder }) => builder)

/** A tree whose nesting goes deeper is treated as plain text; recursive walkers stay far from the stack's end. */
export const maxDepth = 100

/** A longer text is taken as it stands, without formatting, so that showing it stays quick. UTF-16 code units. */
export const maxFormattedLength = 200_000

const deepLine = new RegExp(`^(?:[ \\t]*(?:>|[-+*]|\\d{1,9}[.)])){${maxDepth}}`, 'm')

/**
 * Says whether the parser reads a text in time that grows with its length. A line that opens a hundred quotes or lists
 * takes it seconds, and what is longer than `maxFormattedLength` takes too long for something that is shown at once.
 */
export function isQuickToParse(text: string): boolean {
  return text.length <= maxFormattedLength && !deepLine.test(text)
}

/** The tree of a text, undefined where the text is better taken as it stands: too long or nested too deeply. */
export function maybeTree(text: string): Root | undefined {
  if (!isQuickToParse(text)) return undefined
  const tree = parseMarkdown(text)
  return isDeeperThan(tree, maxDepth) ? undefined : tree
}

/** A parsed text with what is needed to say where each of its characters came from. */
export interface ParsedMarkdown {
  readonly text: string
  readonly tree: Root
  readonly tokens: TokenRecord
}

/** Parses Markdown. Never fails: every text is Markdown. Offsets in positions are UTF-16 code units of `text`. */
export function parseMarkdown(text: string): Root {
  const tree = fromMarkdown(text, { extensions: [syntax], mdastExtensions: treeBuilders })
  if (text.startsWith(byteOrderMark)) shiftOffsets(tree)
  return tree
}

/** Parses Markdown and keeps the tokens beside the tree, for mapping rendered characters to the source. */
export function parseWithTokens(text: string): ParsedMarkdown {
  const { extension, record } = createTokenRecord()
  const tree = fromMarkdown(text, { extensions: [syntax], mdastExtensions: [...treeBuilders, extension] })
  if (!text.startsWith(byteOrderMark)) return { text, tree, tokens: record }
  shiftOffsets(tree)
  return { text, tree, tokens: record.map((token) => ({ ...token, from: token.from + 1, to: token.to + 1 })) }
}

/** The parser drops a leading byte order mark and counts from behind it. */
const byteOrderMark = '\ufeff'

function shiftOffsets(tree: Root): void {
  const seen = new Set<object>()
  visit(tree, (node) => {
    for (const point of [node.position?.start, node.position?.end]) {
      if (!point || point.offset === undefined || seen.has(point)) continue
      seen.add(point)
      point.offset += 1
    }
  })
}

/** Says whether a tree is nested deeper than `limit` levels. Does not recurse, so any depth can be asked for. */
export function isDeeperThan(tree: Nodes, limit: number): boolean {
  let level: Nodes[] = [tree]
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > limit) return true
    level = level.flatMap((node): Nodes[] => ('children' in node ? node.children : []))
  }
  return false
}
