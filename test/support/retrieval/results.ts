/** What each way to rank reaches on the collections, query by query. */
import {
  cacmDocuments,
  cacmQueries,
  manualDocuments,
  nameLines,
  requests,
  type KnownItem,
} from './collections.ts'
import { averagePrecision, precisionAt, reciprocalRank } from './measures.ts'
import { bareLibrary, ourRanker, plainBm25, type Ranker } from './rankers.ts'
import type { FindDocument } from '../../../shared/find/document.ts'

export const rankers = ['ours', 'with meaning', 'bare library', 'plain BM25'] as const
export type RankerName = (typeof rankers)[number]

/** Values of single queries, in one order for all rankers. */
export interface Results {
  readonly averagePrecision: readonly number[]
  readonly p30: readonly number[]
  readonly nameLine: readonly number[]
  readonly request: readonly number[]
}

const known = new Map<RankerName, Results>()

export function resultsOf(name: RankerName): Results {
  let results = known.get(name)
  if (!results) known.set(name, (results = { ...onCacm(name), ...onManuals(name) }))
  return results
}

export function rankerOf(name: RankerName, documents: readonly FindDocument[]): Ranker {
  switch (name) {
    case 'ours':
      return ourRanker(documents, false)
    case 'with meaning':
      return ourRanker(documents, true)
    case 'bare library':
      return bareLibrary(documents)
    case 'plain BM25':
      return plainBm25(documents)
  }
}

function onCacm(name: RankerName): Pick<Results, 'averagePrecision' | 'p30'> {
  const rank = rankerOf(name, cacmDocuments())
  const runs = cacmQueries().map(({ typed, relevant }) => ({ relevant, retrieved: rank(typed) }))
  return {
    averagePrecision: runs.map(({ retrieved, relevant }) => averagePrecision(retrieved, relevant)),
    p30: runs.map(({ retrieved, relevant }) => precisionAt(30, retrieved, relevant)),
  }
}

function onManuals(name: RankerName): Pick<Results, 'nameLine' | 'request'> {
  const rank = rankerOf(name, manualDocuments())
  const ranksOf = (items: readonly KnownItem[]): number[] =>
    items.map(({ typed, wanted }) => reciprocalRank(rank(typed), wanted))
  return { nameLine: ranksOf(nameLines()), request: ranksOf(requests()) }
}
