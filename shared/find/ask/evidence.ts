/** How much of what a question looks for a passage holds, by itself and by what it belongs to. */
import { findSought, type Hit, type Sought } from './terms.ts'
import type { Passage } from './passages.ts'

/** For each term of the question how well it is held, 0 to 1. */
export type Held = Float64Array

/** As in the index: those of Anserini's published baselines (search.ts). */
const K1 = 0.9
const B = 0.4
/** Words; a passage of so many neither gains nor loses by its length. */
const MEAN_LENGTH = 60
/** Hits so many words apart belong together. */
const NEAR = 8

export interface Evidence {
  readonly held: Held
  /** Share of the question's terms, by weight, that stand near another one of them. */
  readonly nearness: number
  /** Of each piece of the passage what was found in it. */
  readonly hits: readonly (readonly Hit[])[]
}

export function evidenceOf(sought: Sought, { pieces }: Passage): Evidence {
  const found = pieces.map(({ text, start, end }) => {
    const { hits, words } = findSought(sought, text.slice(start, end))
    return { words, hits: hits.map((hit) => ({ ...hit, start: hit.start + start, end: hit.end + start })) }
  })
  const words = found.reduce((sum, piece) => sum + piece.words, 0)
  const often = new Float64Array(sought.terms.length)
  const best = new Float64Array(sought.terms.length)
  for (const { term, share } of found.flatMap(({ hits }) => hits)) {
    often[term]! += 1
    best[term] = Math.max(best[term]!, share)
  }
  const norm = K1 * (1 - B + (B * words) / MEAN_LENGTH)
  return {
    held: often.map((count, term) => best[term]! * Math.min(1, ((K1 + 1) * count) / (count + norm))),
    nearness: nearnessOf(
      sought,
      found.map(({ hits }) => hits),
    ),
    hits: found.map(({ hits }) => hits),
  }
}

/** What words around a passage hold: a title, a heading, a whole text. */
export function heldBy(sought: Sought, text: string): Held {
  const held = new Float64Array(sought.terms.length)
  for (const { term, share } of findSought(sought, text).hits) held[term] = Math.max(held[term]!, share)
  return held
}

/** Share of the question, by weight, that is held. */
export function shareOf({ terms }: Sought, held: Held): number {
  const all = terms.reduce((sum, { weight }) => sum + weight, 0)
  return terms.reduce((sum, { weight }, term) => sum + weight * held[term]!, 0) / all
}

/** The better of what is held and a share of what something else holds, for each term. */
export function withShare(held: Held, other: Held, share: number): Held {
  return held.map((own, term) => Math.max(own, share * other[term]!))
}

function nearnessOf({ terms }: Sought, pieces: readonly (readonly Hit[])[]): number {
  const near = new Set<number>()
  for (const hits of pieces)
    for (const [at, hit] of hits.entries())
      for (let next = at + 1; next < hits.length && hits[next]!.at - hit.at <= NEAR; next++)
        if (hits[next]!.term !== hit.term) {
          near.add(hit.term)
          near.add(hits[next]!.term)
        }
  const all = terms.reduce((sum, { weight }) => sum + weight, 0)
  return [...near].reduce((sum, term) => sum + terms[term]!.weight, 0) / all
}
