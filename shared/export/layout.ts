/** Small pieces of the exported document. */
import type { BlockContent, FootnoteReference, Heading, ListItem, Paragraph, PhrasingContent } from 'mdast'
import { mergeText, text } from './nodes.ts'

/** A heading of the document's own outline. */
export function heading(depth: Heading['depth'], children: PhrasingContent[]): Heading {
  return { type: 'heading', depth, children }
}

/** A paragraph. */
export function paragraph(...children: PhrasingContent[]): Paragraph {
  return { type: 'paragraph', children: mergeText(children) }
}

/** One item of the list of steps. Its blocks are set apart by blank lines. */
export function stepItem(blocks: readonly BlockContent[]): ListItem {
  return { type: 'listItem', spread: true, checked: null, children: [...blocks] }
}

/** Blocks with a label before their first words, or above them where they don't begin with words. */
export function withLabel(label: string, blocks: readonly BlockContent[]): BlockContent[] {
  const strong: PhrasingContent = { type: 'strong', children: [text(`${label}:`)] }
  const [first, ...rest] = blocks
  if (first?.type !== 'paragraph') return [paragraph(strong), ...blocks]
  return [paragraph(strong, text(' '), ...first.children), ...rest]
}

/** Blocks with footnote marks behind their last words, or below them where they don't end in words. */
export function withFootnotes(
  blocks: readonly BlockContent[],
  marks: readonly FootnoteReference[],
): BlockContent[] {
  const last = blocks[blocks.length - 1]
  if (marks.length === 0) return [...blocks]
  if (last?.type !== 'paragraph') return [...blocks, paragraph(text('Source: '), ...marks)]
  return [...blocks.slice(0, -1), paragraph(...last.children, ...marks)]
}
