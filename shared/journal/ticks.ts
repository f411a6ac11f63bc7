/** Lists to tick: the items of a text's task lists (GFM 0.29 §5.3), and which of them are ticked now. */
import type { ListItem } from 'mdast'
import { visit } from 'unist-util-visit'
import type { Mark, MarkSays, Piece, Range } from '../lab/model.ts'
import { maybeTree } from '../markdown/parse.ts'
import { slicePieces } from '../provenance/pieces.ts'
import { sharePieces } from './entry-facts.ts'

/** One item of a task list. */
export interface ListedItem {
  /** Where its own words stand in the text; the sign and items within it left out. UTF-16 code units. */
  readonly range: Range
  readonly words: string
  /** How deep it lies in other items; 0 at the top. */
  readonly depth: number
  /** The identities of its words. */
  readonly item: readonly Piece[]
  readonly isTicked: boolean
}

/**
 * The items of a text's task lists in the order of the text. An item is ticked as its newest tick says, else as its sign
 * in the text says. Items without words have no identity and are left out.
 * @param pieces the identities of the text's characters
 */
export function itemsOf(text: string, pieces: readonly Piece[], marks: readonly Mark[]): ListedItem[] {
  const tree = maybeTree(text)
  const items: ListedItem[] = []
  const ends: number[] = []
  if (!tree) return items
  const ticks = marks.flatMap(({ says }) => (says.kind === 'tick' ? [says] : []))
  visit(tree, 'listItem', (node) => {
    const range = typeof node.checked === 'boolean' ? wordsOf(node) : null
    if (!range) return
    const item = slicePieces(pieces, range)
    const newest = ticks.filter((tick) => sharePieces(tick.item, item)).at(-1)
    items.push({
      range,
      item,
      words: text.slice(range.start, range.end),
      depth: ends.filter((end) => end >= range.end).length,
      isTicked: newest ? newest.set : node.checked === true,
    })
    ends.push(node.position!.end.offset!)
  })
  return items
}

/** The item's first paragraph: its own words. */
function wordsOf(node: ListItem): Range | null {
  const [first] = node.children
  if (first?.type !== 'paragraph') return null
  const [start, end] = [first.children[0]?.position?.start.offset, first.position?.end.offset]
  return start === undefined || end === undefined || start >= end ? null : { start, end }
}

/** What ticks an item, or takes its tick away. */
export function tickSays({ item, isTicked }: ListedItem): MarkSays {
  return { kind: 'tick', item, set: !isTicked, was: isTicked }
}
