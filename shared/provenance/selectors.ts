/**
 * Selectors of the W3C Web Annotation Data Model (Recommendation of 23 February 2017, §4.2.4 and §4.2.5):
 * a range of a text said by its words and by its place.
 */
import type { Range, Selector } from '../lab/model.ts'
import { isInsidePair } from '../lab/text.ts'

/**
 * Code units kept before and behind the exact words, so that equal words can be told apart; one less where that would
 * halve a surrogate pair. Where the words stand more than once with so much around them, more is kept.
 */
export const CONTEXT_LENGTH = 32
/** Code units of context at most. Words that stand twice with as much of the same around them cannot be told apart. */
export const LONGEST_CONTEXT = 256

/** Both selectors of a range of a text. @throws RangeError when the range lies outside the text */
export function makeSelector(text: string, range: Range): Selector {
  if (!(range.start >= 0 && range.start < range.end && range.end <= text.length))
    throw new RangeError(`range ${range.start}–${range.end} of a text of ${text.length}`)
  let context = contextOf(text, range, CONTEXT_LENGTH)
  for (let most = CONTEXT_LENGTH * 2; most <= LONGEST_CONTEXT && standsAgain(text, context); most *= 2)
    context = contextOf(text, range, most)
  return {
    quote: {
      type: 'TextQuoteSelector',
      exact: text.slice(range.start, range.end),
      prefix: text.slice(context.start, range.start),
      suffix: text.slice(range.end, context.end),
    },
    position: { type: 'TextPositionSelector', start: range.start, end: range.end },
  }
}

function contextOf(text: string, range: Range, most: number): Range {
  const from = Math.max(0, range.start - most)
  const to = Math.min(text.length, range.end + most)
  return { start: isInsidePair(text, from) ? from + 1 : from, end: isInsidePair(text, to) ? to - 1 : to }
}

function standsAgain(text: string, { start, end }: Range): boolean {
  const words = text.slice(start, end)
  return text.indexOf(words) !== start || text.indexOf(words, start + 1) >= 0
}

/** The range that a selector names by place. */
export function rangeOfSelector(selector: Selector): Range {
  return { start: selector.position.start, end: selector.position.end }
}

/** Whether the place still holds the exact words in this text. */
export function isSelectorTrue(text: string, selector: Selector): boolean {
  return text.slice(selector.position.start, selector.position.end) === selector.quote.exact
}

/** All places of `words` in a text, overlapping ones too, up to `most` of them. */
export function occurrencesOf(text: string, words: string, most = 1000): Range[] {
  const found: Range[] = []
  if (words === '') return found
  for (let at = text.indexOf(words); at >= 0 && found.length < most; at = text.indexOf(words, at + 1))
    found.push({ start: at, end: at + words.length })
  return found
}

/**
 * Finds a selector's exact words again in a text that changed in ways unknown.
 * Found only where there is no doubt: the words stand once, or once with the same prefix and suffix. For words that
 * must be found as they are; `reanchor` also finds the like of them.
 */
export function findQuote(text: string, selector: Selector): Range | null {
  const { exact, prefix, suffix } = selector.quote
  const places = occurrencesOf(text, exact)
  if (places.length === 1) return places[0]!
  const fitting = places.filter(
    ({ start, end }) =>
      text.slice(Math.max(0, start - prefix.length), start) === prefix &&
      text.slice(end, end + suffix.length) === suffix,
  )
  return fitting.length === 1 ? fitting[0]! : null
}

/** A text's words: runs without white space. What "word for word" compares. */
export function wordsOf(text: string): string[] {
  return text.split(/\s+/u).filter((word) => word !== '')
}
