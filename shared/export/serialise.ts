import type { Root } from 'mdast'
import { gfmToMarkdown } from 'mdast-util-gfm'
import { toMarkdown, type Options } from 'mdast-util-to-markdown'

/**
 * One fixed way to write a tree, so that the same tree always gives the same bytes.
 * Tables are not padded: the width of a character is a matter of fonts.
 */
const style: Options = {
  bullet: '-',
  bulletOrdered: '.',
  emphasis: '*',
  strong: '*',
  fence: '`',
  fences: true,
  rule: '*',
  listItemIndent: 'one',
  extensions: [gfmToMarkdown({ tablePipeAlign: false })],
}

/** Markdown (CommonMark and GFM) of a tree. Line ends `\n`, one at the end. */
export function serialiseMarkdown(tree: Root): string {
  return `${toMarkdown(tree, style).replace(/\n+$/u, '')}\n`
}
