import type { Nodes } from 'mdast'
import { maybeTree } from './parse.ts'

const blocks = new Set([
  'paragraph',
  'heading',
  'code',
  'listItem',
  'tableCell',
  'blockquote',
  'thematicBreak',
])
const flows = new Set(['root', 'blockquote', 'listItem', 'footnoteDefinition'])

/**
 * The visible words of a Markdown text in one line, for labels and lists.
 * @param limit at most that many code points, the last one an ellipsis when words were left out
 */
export function plainWords(text: string, limit = Number.POSITIVE_INFINITY): string {
  const source = Number.isFinite(limit) ? text.slice(0, limit * 20 + 1000) : text
  const tree = maybeTree(source)
  const words = tree ? wordsOf(tree) : source
  return shorten(toOneLine(words), limit)
}

/** The visible words of a parsed tree; blocks are parted by a space. */
export function wordsOf(node: Nodes): string {
  if (node.type === 'image' || node.type === 'imageReference') return node.alt ?? ''
  if (node.type === 'break') return ' '
  if ('value' in node) return blocks.has(node.type) ? ` ${node.value} ` : node.value
  const inner = 'children' in node ? node.children.map(wordsOf).join(flows.has(node.type) ? ' ' : '') : ''
  return blocks.has(node.type) ? ` ${inner} ` : inner
}

/** Any text as one line: every run of white space is one space, none at the ends; U+0000 shows as U+FFFD. */
export function toOneLine(text: string): string {
  return text.replaceAll('\0', '\ufffd').replace(/\s+/gu, ' ').trim()
}

function shorten(text: string, limit: number): string {
  if (text.length <= limit) return text
  const points = Array.from(text)
  return points.length <= limit
    ? text
    : `${points
        .slice(0, Math.max(0, limit - 1))
        .join('')
        .trimEnd()}…`
}
