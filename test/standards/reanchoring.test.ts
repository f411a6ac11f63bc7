/**
 * Finding carried words again, measured on real revisions (test/support/reanchoring): only fragments that do not stand
 * exactly once in the newer text count, and where they are is told by two algorithms that have to agree. Beside it what
 * finding the first place of the exact words would give, and the library for approximate matching by itself.
 *
 * The rule's constants were set on the one half of the texts; the other one was measured with them as they stood then.
 */
import { describe, expect, it } from 'vitest'
import { makeSelector } from '../../shared/provenance/selectors.ts'
import atLarge from '../fixtures/reanchoring/at-large.json'
import { firstExactMatch, libraryAlone, ownFinder } from '../support/reanchoring/finders.ts'
import { drawFragments, type Fragment } from '../support/reanchoring/fragments.ts'
import { judgedCases } from '../support/reanchoring/judged.ts'
import { judge, type Finder } from '../support/reanchoring/tally.ts'
import { isGfmThere, readPairs, type Half, type TextPair } from '../support/reanchoring/texts.ts'
import { placeMapsOf, verdictOn, type PlaceMaps, type Verdict } from '../support/reanchoring/truth.ts'

interface Case {
  readonly fragment: Fragment
  readonly verdict: Exclude<Verdict, { kind: 'unsettled' }>
}

const finders: Readonly<Record<string, Finder>> = {
  Stillroom: ownFinder,
  'first exact match': firstExactMatch,
  'library alone': libraryAlone,
}

const pairs = readPairs()
const cases: Record<Half, Case[]> = { development: [], frozen: [] }
const mapsOf = new Map<TextPair, PlaceMaps>()
let unsettled = 0
for (const pair of pairs) {
  const maps = placeMapsOf(pair)
  mapsOf.set(pair, maps)
  for (const half of ['development', 'frozen'] as const)
    for (const fragment of drawFragments(pair, half)) {
      const verdict = verdictOn(fragment, pair, maps)
      if (verdict.kind === 'unsettled') unsettled++
      else cases[half].push({ fragment, verdict })
    }
}

/** Shares: right of the fragments that exist still, wrong of all. */
function measure(half: Half, find: Finder): { readonly right: number; readonly wrong: number } {
  let [there, right, wrong] = [0, 0, 0]
  for (const { fragment, verdict } of cases[half]) {
    const { pair } = fragment
    const outcome = judge(find(pair.newer, makeSelector(pair.older, fragment)), verdict)
    if (verdict.kind === 'there') {
      there++
      if (outcome === 'right') right++
    }
    if (outcome === 'wrong') wrong++
  }
  return { right: right / there, wrong: wrong / cases[half].length }
}

const percent = (share: number): string => `${(share * 100).toFixed(2)} %`

describe('fragments of published texts in a later version', () => {
  it('are counted by the hundred, of every kind, those that exist still and those that are gone', () => {
    expect(pairs.length).toBeGreaterThanOrEqual(isGfmThere ? 27 : 25)
    for (const half of ['development', 'frozen'] as const) {
      const gone = cases[half].filter(({ verdict }) => verdict.kind === 'gone').length
      console.log(`${half}: ${cases[half].length - gone} there, ${gone} gone`)
      expect(gone).toBeGreaterThan(200)
      expect(cases[half].length - gone).toBeGreaterThan(2000)
    }
    console.log(`not settled by the two algorithms, and not counted: ${unsettled}`)
  })

  it('are where the two algorithms see them, as a reader judged a hundred drawn at large', () => {
    const judged = judgedCases(atLarge, pairs).map(({ texts, fragment, verdict }) => ({
      told: verdictOn(fragment, texts, mapsOf.get(texts)!),
      verdict,
    }))
    const settled = judged.filter(({ told }) => told.kind !== 'unsettled')
    const agreed = settled.filter(({ told, verdict }) => {
      const answer = told.kind === 'there' ? told.truth.place : null
      return judge(answer, verdict) === 'right'
    })
    console.log(`a reader agrees in ${agreed.length} of ${settled.length} settled, of ${judged.length}`)
    expect(settled.length / judged.length).toBeGreaterThan(0.8)
    expect(agreed.length / settled.length).toBeGreaterThan(0.98)
  })

  for (const half of ['development', 'frozen'] as const)
    it(`are found again rightly in nine of ten cases and wrongly in less than one of a hundred (${half} half)`, () => {
      const [own, first, library] = Object.entries(finders).map(([name, find]) => {
        const shares = measure(half, find)
        console.log(`${half}, ${name}: right ${percent(shares.right)}, wrong ${percent(shares.wrong)}`)
        return shares
      })
      expect(own!.right).toBeGreaterThanOrEqual(0.9)
      expect(own!.wrong).toBeLessThan(0.01)
      expect(own!.right).toBeGreaterThan(Math.max(first!.right, library!.right))
      expect(own!.wrong).toBeLessThan(Math.min(first!.wrong, library!.wrong))
    }, 900_000)
})
