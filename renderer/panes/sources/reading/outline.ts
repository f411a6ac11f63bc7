/** The headings of a text and what they are called. */
import type { SyntaxNodeRef, Tree } from '@lezer/common'
import { toOneLine } from '../../../../shared/markdown/words.ts'

export interface Heading {
  /** 1 to 6. */
  readonly level: number
  readonly words: string
  /** Where it begins in the text, in UTF-16 code units. */
  readonly from: number
}

/** All headings of a text, in order. Those without words are left out: nothing could be pressed. */
export function headingsOf(text: string, tree: Tree): Heading[] {
  const headings: Heading[] = []
  tree.iterate({
    enter: (node) => {
      const level = levelOf(node)
      if (level === 0) return isContainer(node.name)
      const words = wordsOf(text.slice(node.from, node.to))
      if (words !== '') headings.push({ level, words, from: node.from })
      return false
    },
  })
  return headings
}

/** 1 to 6 for a heading, 0 for anything else. */
export function levelOf({ name }: Pick<SyntaxNodeRef, 'name'>): number {
  const level = /^(?:ATX|Setext)Heading([1-6])$/u.exec(name)?.[1]
  return level === undefined ? 0 : Number(level)
}

const isContainer = (name: string): boolean =>
  name === 'Document' || name === 'Blockquote' || name === 'ListItem' || name.endsWith('List')

function wordsOf(heading: string): string {
  const plain = heading
    .replace(/\n\s*(?:=+|-+)\s*$/u, '')
    .replace(/^\s*#{1,6}(?=\s|$)/u, '')
    .replace(/\s#+\s*$/u, '')
    .replace(/!\[([^\]]*)\]\([^)]*\)/gu, '$1')
    .replace(/\[([^\]]+)\]\([^)]*\)/gu, '$1')
    .replace(/(?<!\\)[*`]+/gu, '')
    .replace(/(?<![\\\p{L}\p{N}])_+|_+(?![\p{L}\p{N}])/gu, '')
    .replace(/\\([!-/:-@[-`{-~])/gu, '$1')
    .replace(/&#x20;/gu, ' ')
    .replace(/&amp;/gu, '&')
  return toOneLine(plain)
}

/** The heading under which a place lies: the last that begins at or before it; -1 before the first. */
export function headingAt(headings: readonly Heading[], position: number): number {
  let low = 0
  let high = headings.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (headings[middle]!.from <= position) low = middle + 1
    else high = middle
  }
  return low - 1
}

/** How deep each heading stands below those before it, from 0: a level that is skipped makes no step. */
export function depthsOf(headings: readonly Heading[]): number[] {
  const open: number[] = []
  return headings.map(({ level }) => {
    while (open.length > 0 && open.at(-1)! >= level) open.pop()
    open.push(level)
    return open.length - 1
  })
}
