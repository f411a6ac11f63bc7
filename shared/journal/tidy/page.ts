/** A text as the rules of tidying see it: its tree, its lines, and what of it is a person's own. */
import type { Nodes, Parents, Root } from 'mdast'
import type { Line, Span } from './lines.ts'

/** A text with what the rules ask about it. */
export interface Page {
  readonly text: string
  readonly tree: Root
  readonly lines: readonly Line[]
  /** Whether no character of a line may change, since it may be a machine's. Lines in fences are not asked for. */
  readonly isFrozen: (n: number) => boolean
}

/** The lines of a node. */
export function spanOf(node: Nodes): Span {
  const { position } = node
  if (!position) throw new Error(`a ${node.type} without a place`)
  return { first: position.start.line - 1, last: position.end.line - 1 }
}

/** What is a person's own text: nothing that is quoted, tabled, code or raw HTML. */
const ownParents = new Set(['root', 'list', 'listItem'])

/** Visits the blocks of a person's own text, each with its parent, in the order of the text. */
export function visitOwn(parent: Parents, visit: (node: Nodes, parent: Parents) => void): void {
  for (const child of parent.children) {
    visit(child, parent)
    if (ownParents.has(child.type) && 'children' in child) visitOwn(child, visit)
  }
}
