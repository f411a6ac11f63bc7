/** The footnotes of a whole document: numbered in the order in which they are first named, collected for its end. */
import type { BlockContent, FootnoteDefinition, FootnoteReference } from 'mdast'

type Content = FootnoteDefinition['children'] | readonly BlockContent[]

export interface Footnotes {
  /** A reference to the footnote with this key; `content` is asked for when the key is new. */
  refer(key: string, content: () => Content): FootnoteReference
  /** All definitions, in the order of their numbers. */
  definitions(): FootnoteDefinition[]
}

/** An empty collection. Labels are the numbers 1, 2, 3 …, so no two texts' own labels can collide. */
export function createFootnotes(): Footnotes {
  const labels = new Map<string, string>()
  const written: FootnoteDefinition[] = []
  return {
    refer(key, content) {
      const known = labels.get(key)
      if (known !== undefined) return { type: 'footnoteReference', identifier: known, label: known }
      const label = String(labels.size + 1)
      labels.set(key, label)
      const definition: FootnoteDefinition = {
        type: 'footnoteDefinition',
        identifier: label,
        label,
        children: [],
      }
      written.push(definition)
      definition.children = [...content()] as FootnoteDefinition['children']
      return { type: 'footnoteReference', identifier: label, label }
    },
    definitions: () => written,
  }
}
