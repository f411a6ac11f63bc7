/**
 * Ranking against public collections; see test/support/retrieval for what of them is read, and how it is measured. What
 * ships ranks by words alone. None of its constants was chosen on these collections: shared/find/README.md says of each where
 * it is from.
 *
 * Published for CACM: BM25 of Anserini (k1 = 0.9, b = 0.4), MAP .3123 and P30 .1942
 * (https://github.com/castorini/anserini, regressions of CACM). Only these means were published, so that single queries are
 * compared with a plain BM25 that is made here.
 */
import { describe, expect, it } from 'vitest'
import { pairedRandomisation } from '../bench/support/tags.ts'
import {
  cacmDocuments,
  cacmQueries,
  hasCollections,
  nameLines,
  requests,
} from '../support/retrieval/collections.ts'
import { averagePrecision, mean, precisionAt, reciprocalRank } from '../support/retrieval/measures.ts'
import { resultsOf } from '../support/retrieval/results.ts'

const published = { map: 0.3123, p30: 0.1942 }

describe.skipIf(!hasCollections)('what is found on public collections', { timeout: 300_000 }, () => {
  it('is measured on the whole of them', () => {
    expect([cacmDocuments().length, cacmQueries().length]).toEqual([3204, 52])
    expect([nameLines().length, requests().length]).toEqual([1265, 1149])
  })

  it('on CACM is no worse than what was published for BM25, and better than a plain one by more than chance', () => {
    const ours = resultsOf('ours')
    const plain = resultsOf('plain BM25')
    expect(mean(ours.averagePrecision)).toBeGreaterThanOrEqual(published.map)
    expect(mean(ours.p30)).toBeGreaterThanOrEqual(published.p30)
    for (const measure of ['averagePrecision', 'p30'] as const) {
      expect(mean(ours[measure])).toBeGreaterThan(mean(plain[measure]))
      expect(pairedRandomisation(ours[measure], plain[measure])).toBeLessThan(0.05)
    }
  })

  it('among manual pages keeps above the floor', () => {
    expect(mean(resultsOf('ours').nameLine)).toBeGreaterThanOrEqual(0.609)
    expect(mean(resultsOf('ours').request)).toBeGreaterThanOrEqual(0.275)
  })

  it('is better than the bare library for CACM, by more than chance, and for NAME lines', () => {
    const ours = resultsOf('ours')
    const bare = resultsOf('bare library')
    expect(mean(ours.nameLine)).toBeGreaterThan(mean(bare.nameLine))
    for (const measure of ['averagePrecision', 'p30'] as const) {
      expect(mean(ours[measure])).toBeGreaterThan(mean(bare[measure]))
      expect(pairedRandomisation(ours[measure], bare[measure])).toBeLessThan(0.05)
    }
  })

  it('is held against a plain BM25 that is no straw man', () => {
    const plain = resultsOf('plain BM25')
    expect(mean(plain.averagePrecision)).toBeGreaterThan(0.3)
    expect(mean(plain.nameLine)).toBeGreaterThan(0.6)
    expect(mean(plain.request)).toBeGreaterThan(0.27)
  })
})

describe('the measures', () => {
  it('are those of trec_eval', () => {
    // Relevant at places 1 and 3, a third one not retrieved: (1/1 + 2/3 + 0) / 3.
    const relevant = new Set(['a', 'c', 'x'])
    expect(averagePrecision(['a', 'b', 'c'], relevant)).toBeCloseTo((1 + 2 / 3) / 3, 12)
    expect(precisionAt(30, ['a', 'b', 'c'], relevant)).toBeCloseTo(2 / 30, 12)
    expect(reciprocalRank(['a', 'b', 'c'], 'c')).toBeCloseTo(1 / 3, 12)
    expect(reciprocalRank(['a'], 'c')).toBe(0)
  })
})
