/**
 * Keeps blocks out of lines. Broken HTML can hold a code block or a table within a paragraph; written as Markdown, its
 * marks would then stand inside a line and mean nothing, and what it held would no longer be held.
 */
import type { InlineCode, Nodes, Paragraph, PhrasingContent, Root, RootContent, Text } from 'mdast'
import { wordsOf } from '../markdown/words.ts'

/** Nodes that stand as blocks of their own (CommonMark 0.31.2 §3, GFM 0.29 §4.10). */
const blocks: ReadonlySet<string> = new Set<RootContent['type']>([
  'blockquote',
  'code',
  'heading',
  'html',
  'list',
  'listItem',
  'paragraph',
  'table',
  'tableRow',
  'thematicBreak',
])
const lines: ReadonlySet<string> = new Set<RootContent['type']>([
  'delete',
  'emphasis',
  'heading',
  'link',
  'strong',
  'tableCell',
])

/** The tree with every block where blocks may stand: a paragraph is cut around it, in any other line it becomes words. */
export function liftBlocks(root: Root): Root {
  return withChildren(root) as Root
}

function withChildren(node: Nodes): Nodes {
  if (!('children' in node)) return node
  const children = (node.children as Nodes[]).flatMap((child) =>
    lines.has(node.type) && blocks.has(child.type) ? toWords(child) : lifted(child),
  )
  return { ...node, children } as Nodes
}

function lifted(node: Nodes): Nodes[] {
  const inner = withChildren(node)
  return inner.type === 'paragraph' ? cutAround(inner) : [inner]
}

function cutAround(paragraph: Paragraph): Nodes[] {
  const children = paragraph.children as Nodes[]
  if (!children.some((child) => blocks.has(child.type))) return [paragraph]
  const cut: Nodes[] = []
  for (const child of children) {
    const last = cut.at(-1)
    if (blocks.has(child.type)) cut.push(child)
    else if (last?.type === 'paragraph') last.children.push(child as PhrasingContent)
    else cut.push({ type: 'paragraph', children: [child as PhrasingContent] })
  }
  return cut
}

function toWords(block: Nodes): Nodes[] {
  if (block.type === 'code') {
    const code: InlineCode = { type: 'inlineCode', value: block.value.replace(/\s+/gu, ' ').trim() }
    return code.value === '' ? [] : [code]
  }
  const value = wordsOf(block)
  const text: Text = { type: 'text', value }
  return value === '' ? [] : [text]
}
