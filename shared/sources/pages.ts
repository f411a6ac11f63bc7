/** Which page of a paged document a place in its text lies on. Positions are UTF-16 code units of the text. */
import type { PageStart, Range } from '../lab/model.ts'

/**
 * The place in `pages` of the page that a position lies on, from 0; -1 for a document without pages and before the first.
 * An empty page starts where the next one does, so a position there lies on the last of them.
 */
export function pageIndexAt(pages: readonly PageStart[], position: number): number {
  let low = 0
  let high = pages.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (pages[middle]!.start <= position) low = middle + 1
    else high = middle
  }
  return low - 1
}

/**
 * On which pages some ranges lie, in words: 'page 12', 'pages 12 to 14', 'pages iv, 2 and 7'.
 * @returns null for a document without pages and where there are no ranges
 */
export function pageWords(pages: readonly PageStart[], ranges: readonly Range[]): string | null {
  const spans = spansOf(pages, ranges)
  if (spans.length === 0) return null
  const words = spans.map(([from, to]) => {
    const [first, last] = [pages[from]!.label, pages[to]!.label]
    return from === to ? first : `${first} to ${last}`
  })
  const isOne = spans.length === 1 && spans[0]![0] === spans[0]![1]
  const last = words.pop()!
  const list = words.length === 0 ? last : `${words.join(', ')} and ${last}`
  return `${isOne ? 'page' : 'pages'} ${list}`
}

/** Runs of pages that the ranges touch, in order; runs that touch each other are one. */
function spansOf(pages: readonly PageStart[], ranges: readonly Range[]): [number, number][] {
  const touched = ranges
    .map(({ start, end }): [number, number] => [
      pageIndexAt(pages, start),
      pageIndexAt(pages, Math.max(start, end - 1)),
    ])
    .filter(([from]) => from >= 0)
    .sort(([a], [b]) => a - b)
  const spans: [number, number][] = []
  for (const [from, to] of touched) {
    const last = spans.at(-1)
    if (last && from <= last[1]) last[1] = Math.max(last[1], to)
    else spans.push([from, to])
  }
  return spans
}
