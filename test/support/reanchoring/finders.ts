/** The ways of finding a fragment again that are measured beside each other. */
import search from 'approx-string-match'
import { olderText, type OlderText } from '../../../shared/provenance/alignment/olderText.ts'
import { reanchor } from '../../../shared/provenance/reanchor.ts'
import { occurrencesOf } from '../../../shared/provenance/selectors.ts'
import type { Finder } from './tally.ts'
import type { TextPair } from './texts.ts'

/** What the library for approximate matching is allowed when it is on its own: two errors in five. */
const ERRORS_ALONE = 0.4

const olderTexts = new Map<TextPair, OlderText>()

/** As the program finds words again: it keeps the text that they were carried from. */
export const ownFinder: Finder = (selector, pair) => {
  const older = olderTexts.get(pair) ?? olderText(pair.older)
  olderTexts.set(pair, older)
  return reanchor(pair.newer, selector, older.alignTo(pair.newer))?.range ?? null
}
/** What is left to it where that text is not known: the quote and what stood around it. */
export const ownFinderByQuote: Finder = (selector, { newer }) => reanchor(newer, selector)?.range ?? null
export const firstExactMatch: Finder = ({ quote }, { newer }) =>
  occurrencesOf(newer, quote.exact, 1)[0] ?? null
export const libraryAlone: Finder = ({ quote: { exact } }, { newer }) =>
  search(newer, exact, Math.floor(exact.length * ERRORS_ALONE))[0] ?? null
