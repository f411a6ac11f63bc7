/**
 * The proof that a tree was written well: what is read back is what was written.
 * Some trees have no Markdown that says them; this finds those before anything is lost.
 */
import type { BlockContent, FootnoteDefinition, List, ListItem, Nodes, Root } from 'mdast'
import { maybeTree } from '../markdown/parse.ts'
import { serialiseMarkdown } from './serialise.ts'
import { stepItem, withLabel } from './layout.ts'

/** Says whether blocks read back as they are: by themselves, as a labelled part of a numbered step, and of a sub-step. */
export function isWrittenFaithfully(
  blocks: readonly BlockContent[],
  notes: readonly FootnoteDefinition[],
): boolean {
  const alone: Root = { type: 'root', children: [...blocks, ...notes] }
  const item = stepItem(withLabel('Label', blocks))
  const under = stepItem([{ type: 'list', ordered: false, spread: true, children: [item] }])
  return [alone, inList(item, notes), inList(under, notes)].every(isReadBack)
}

function inList(item: ListItem, notes: readonly FootnoteDefinition[]): Root {
  const list: List = { type: 'list', ordered: true, start: 1, spread: true, children: [item] }
  return { type: 'root', children: [list, ...notes] }
}

function isReadBack(tree: Root): boolean {
  const again = maybeTree(serialiseMarkdown(tree))
  return again !== undefined && JSON.stringify(meaningOf(again)) === JSON.stringify(meaningOf(tree))
}

/** What a node says, without where it stands and how loosely it was typed. */
function meaningOf(node: Nodes): unknown {
  const { type } = node
  if (type === 'text') return ['text', node.value]
  if (type === 'inlineCode') return [type, node.value.replace(/\n/gu, ' ')]
  if (type === 'code') return [type, node.lang ?? '', node.meta ?? '', node.value]
  if (type === 'image') return [type, node.url, node.title ?? '', node.alt ?? '']
  if (type === 'footnoteReference') return [type, node.identifier]
  if ('value' in node) return [type, node.value]
  return 'children' in node ? [type, ...traitsOf(node), node.children.map(meaningOf)] : [type]
}

function traitsOf(node: Nodes): readonly unknown[] {
  if (node.type === 'list') return [node.ordered ?? false, node.ordered ? (node.start ?? 1) : null]
  if (node.type === 'listItem') return [node.checked ?? null]
  if (node.type === 'link') return [node.url, node.title ?? '']
  if (node.type === 'heading') return [node.depth]
  if (node.type === 'table') return [node.align ?? []]
  if (node.type === 'footnoteDefinition') return [node.identifier]
  return []
}
