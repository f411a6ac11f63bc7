/** Growing a range of Markdown so that the words cut out still read as Markdown of their own. */
import type { Nodes } from 'mdast'
import { visit } from 'unist-util-visit'
import type { Range } from '../lab/model.ts'
import { maybeTree } from './parse.ts'

const enclosing = new Set([
  'strong',
  'emphasis',
  'delete',
  'inlineCode',
  'link',
  'linkReference',
  'image',
  'imageReference',
  'footnoteReference',
  'code',
  'html',
  'table',
  'heading',
])

/**
 * The smallest range around the given one that cuts no formatted piece in two: a selection that begins within bold
 * words, a code block or a table and ends outside takes in that piece as a whole.
 * A selection that stays inside one piece is left as it is, so that a word or a command can be picked by itself.
 */
export function balancedRange(text: string, range: Range): Range {
  const tree = maybeTree(text)
  if (!tree) return range
  let { start, end } = range
  for (let before = -1; before !== end - start;) {
    before = end - start
    visit(tree, (node) => {
      const piece = placeOfEnclosing(node)
      if (!piece || piece.end <= start || piece.start >= end) return
      const isInside = start >= piece.start && end <= piece.end
      if (isInside) return
      start = Math.min(start, piece.start)
      end = Math.max(end, piece.end)
    })
  }
  return { start, end }
}

function placeOfEnclosing(node: Nodes): Range | undefined {
  const start = node.position?.start.offset
  const end = node.position?.end.offset
  return enclosing.has(node.type) && start !== undefined && end !== undefined ? { start, end } : undefined
}
