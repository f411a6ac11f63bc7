/** What a search answers. */
import type { FoundThing } from '../document.ts'

export interface FindAnswer {
  /** Best first; equal scores in the order of ids. */
  readonly hits: readonly FindHit[]
  /** How many documents fit the words and filters, by thing; hits by meaning alone come on top. */
  readonly counts: ReadonlyMap<FoundThing, number>
  /** How the words were taken: what a text's words must be to be marked. */
  readonly taken: TakenQuery
}

export interface FindHit {
  readonly id: string
  readonly thing: FoundThing
  /** See search.ts; 0 where only filters were given. Comparable within one answer alone. */
  readonly score: number
  readonly moment: number | null
}

/** The query's words and phrases with all that stood in for them. A plain value that can be sent to the page. */
export interface TakenQuery {
  /** Technical words also by their parts. */
  readonly words: readonly TakenWord[]
  /** Each phrase by the folded forms of its words. */
  readonly phrases: readonly (readonly string[])[]
}

export interface TakenWord {
  /** Folded. */
  readonly form: string
  /** Words of the same stem count as the word itself; null for one that has none. */
  readonly stem: string | null
  /** It was still being typed: longer words that begin so count as well. */
  readonly isBeginning: boolean
  /** Words of the lab that were taken for its right spelling, folded; mostly none. */
  readonly respelt: readonly string[]
}

export interface SearchOptions {
  /** At most so many hits. */
  readonly limit: number
  /** Also what was withdrawn, which counts half. */
  readonly withdrawn?: boolean
  /** Newest first instead of best first; for "everything that touched this path, in order". */
  readonly order?: 'best' | 'oldest' | 'newest'
}
