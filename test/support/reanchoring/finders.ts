/** The ways of finding a fragment again that are measured beside each other. */
import search from 'approx-string-match'
import { reanchor } from '../../../shared/provenance/reanchor.ts'
import { occurrencesOf } from '../../../shared/provenance/selectors.ts'
import type { Finder } from './tally.ts'

/** What the library for approximate matching is allowed when it is on its own: two errors in five. */
const ERRORS_ALONE = 0.4

export const ownFinder: Finder = (text, selector) => reanchor(text, selector)?.range ?? null
export const firstExactMatch: Finder = (text, { quote }) => occurrencesOf(text, quote.exact, 1)[0] ?? null
export const libraryAlone: Finder = (text, { quote: { exact } }) =>
  search(text, exact, Math.floor(exact.length * ERRORS_ALONE))[0] ?? null
