/**
 * Fragments whose places in the later version were judged by reading both texts, before anything had been asked to find
 * them. A file of judgements (test/fixtures/reanchoring) holds offsets (UTF-16 code units) and digests of the texts, none
 * of their words. `place` is null where the fragment is gone; `widest` says how far an answer may reach where it was
 * torn apart or words were put in its edge's place.
 */
import { createHash } from 'node:crypto'
import type { Range } from '../../../shared/lab/model.ts'
import { makeSelector } from '../../../shared/provenance/selectors.ts'
import { judge, type Finder, type Outcome } from './tally.ts'
import type { TextPair } from './texts.ts'
import type { Verdict } from './truth.ts'

export interface JudgedFile {
  readonly pairs: readonly { readonly name: string; readonly older: string; readonly newer: string }[]
  readonly cases: readonly {
    readonly pair: number
    readonly fragment: readonly number[]
    readonly place: readonly number[] | null
    readonly widest: readonly number[] | null
  }[]
}

export interface JudgedCase {
  readonly texts: TextPair
  readonly fragment: Range
  readonly verdict: Exclude<Verdict, { kind: 'unsettled' }>
}

/** The cases of the pairs that are there. @throws Error when a text is not the one that was read */
export function judgedCases(file: JudgedFile, pairs: readonly TextPair[]): JudgedCase[] {
  const named = new Map(pairs.map((pair) => [pair.name, pair]))
  for (const { name, older, newer } of file.pairs) {
    const pair = named.get(name)
    if (pair && (digestOf(pair.older) !== older || digestOf(pair.newer) !== newer))
      throw new Error(`not the texts that were read: ${name}`)
  }
  return file.cases.flatMap(({ pair, fragment, place, widest }) => {
    const texts = named.get(file.pairs[pair]!.name)
    if (!texts) return []
    const verdict: JudgedCase['verdict'] =
      place && widest
        ? { kind: 'there', truth: { place: toRange(place), widest: toRange(widest) } }
        : { kind: 'gone' }
    return [{ texts, fragment: toRange(fragment), verdict }]
  })
}

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex')
const toRange = ([start, end]: readonly number[]): Range => ({ start: start!, end: end! })

/** Shares: right of the fragments that exist still, wrong of all. */
export interface Shares {
  readonly right: number
  readonly wrong: number
}

export function measure(cases: readonly JudgedCase[], find: Finder): Shares {
  const outcomes = cases.map((one) => ({ outcome: outcomeOf(one, find), kind: one.verdict.kind }))
  const there = outcomes.filter(({ kind }) => kind === 'there')
  return {
    right: there.filter(({ outcome }) => outcome === 'right').length / there.length,
    wrong: outcomes.filter(({ outcome }) => outcome === 'wrong').length / outcomes.length,
  }
}

export function outcomeOf({ texts, fragment, verdict }: JudgedCase, find: Finder): Outcome {
  return judge(find(makeSelector(texts.older, fragment), texts), verdict)
}
