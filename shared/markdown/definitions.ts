import type { Definition, FootnoteDefinition, Nodes, Root } from 'mdast'
import { visit } from 'unist-util-visit'

/** Link definitions by identifier; the first one of a name counts (CommonMark §4.7). */
export function definitionsByName(tree: Root): ReadonlyMap<string, Definition> {
  return firstByName(tree, (node) => (node.type === 'definition' ? node : undefined))
}

/** Footnote definitions by identifier; the first one of a name counts. */
export function footnotesByName(tree: Root): ReadonlyMap<string, FootnoteDefinition> {
  return firstByName(tree, (node) => (node.type === 'footnoteDefinition' ? node : undefined))
}

function firstByName<T extends { identifier: string }>(
  tree: Root,
  pick: (node: Nodes) => T | undefined,
): Map<string, T> {
  const found = new Map<string, T>()
  visit(tree, (node) => {
    const picked = pick(node)
    if (picked && !found.has(picked.identifier)) found.set(picked.identifier, picked)
  })
  return found
}

/**
 * The link definitions that a link or picture of the text names. The others would stay invisible when rendered,
 * so whoever shows or exports a text shows them as they were typed.
 */
export function usedDefinitions(tree: Root): ReadonlySet<Definition> {
  const byName = definitionsByName(tree)
  const used = new Set<Definition>()
  visit(tree, (node) => {
    if (node.type !== 'linkReference' && node.type !== 'imageReference') return
    const definition = byName.get(node.identifier)
    if (definition) used.add(definition)
  })
  return used
}
