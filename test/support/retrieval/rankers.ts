/** Ways to rank a collection, side by side. */
import MiniSearch from 'minisearch'
import { stemmer } from 'stemmer'
import type { FindDocument } from '../../../shared/find/document.ts'
import { emptyIndex, withDocuments } from '../../../shared/find/index/lab-index.ts'
import { search } from '../../../shared/find/index/search.ts'
import { learnFrom, placeNext, type LabMeaning } from '../../../shared/find/meaning/lab-meaning.ts'
import { plainQuery } from '../find.ts'

/** The ids of the best documents for what was typed, best first. */
export type Ranker = (typed: string) => string[]

const MOST = 1000

/** What ships is without meaning. */
export function ourRanker(documents: readonly FindDocument[], withMeaning: boolean): Ranker {
  const index = withDocuments(emptyIndex, { documents, removed: [], sequence: 1 })
  let meaning: LabMeaning | null = withMeaning ? learnFrom(index) : null
  for (let next = meaning; next; next = placeNext(next, index)) meaning = next
  return (typed) => search(index, plainQuery(typed), { limit: MOST }, meaning).hits.map(({ id }) => id)
}

/** The library as it comes. */
export function bareLibrary(documents: readonly FindDocument[]): Ranker {
  const library = new MiniSearch<FindDocument>({ fields: ['title', 'text'] })
  library.addAll(documents)
  return (typed) => library.search(typed).map(({ id }) => id as string)
}

const stopWords = new Set(
  (
    'a an and are as at be but by for if in into is it no not of on or such that the their then there these they this to ' +
    'was will with'
  ).split(' '),
)

function plainWords(text: string): string[] {
  const words = text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []
  return words.filter((word) => !stopWords.has(word)).map((word) => stemmer(word))
}

/** Plain BM25: runs of letters and digits, Porter's stems, Lucene's stop words, one field, k1 = 0.9, b = 0.4. */
export function plainBm25(documents: readonly FindDocument[]): Ranker {
  const holders = new Map<string, Map<number, number>>()
  const lengths = documents.map(({ title, text }, at) => {
    const words = plainWords(`${title}\n${text}`)
    for (const word of words) {
      const held = holders.get(word) ?? new Map<number, number>()
      holders.set(word, held.set(at, (held.get(at) ?? 0) + 1))
    }
    return words.length
  })
  const meanLength = lengths.reduce((sum, length) => sum + length, 0) / lengths.length
  return (typed) => {
    const scores = new Map<number, number>()
    for (const word of plainWords(typed)) {
      const held = holders.get(word) ?? new Map<number, number>()
      const idf = Math.log(1 + (lengths.length - held.size + 0.5) / (held.size + 0.5))
      for (const [at, often] of held) {
        const score = (idf * often) / (often + 0.9 * (1 - 0.4 + (0.4 * lengths[at]!) / meanLength))
        scores.set(at, (scores.get(at) ?? 0) + score)
      }
    }
    const best = [...scores].sort(([one, ofOne], [other, ofOther]) => ofOther - ofOne || one - other)
    return best.slice(0, MOST).map(([at]) => documents[at]!.id)
  }
}
