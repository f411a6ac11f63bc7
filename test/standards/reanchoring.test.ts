/**
 * Finding carried words again, measured on real revisions (test/support/reanchoring): only fragments that do not stand
 * exactly once in the newer text count, and where they are is told by two algorithms that have to agree. Beside it what
 * finding the first place of the exact words would give, and the library for approximate matching by itself.
 *
 * The rule's constants were set on the one half of the texts; the other one was measured with them as they stood then.
 */
import search from 'approx-string-match'
import { describe, expect, it } from 'vitest'
import { reanchor } from '../../shared/provenance/reanchor.ts'
import { makeSelector, occurrencesOf } from '../../shared/provenance/selectors.ts'
import { drawFragments, type Fragment } from '../support/reanchoring/fragments.ts'
import { judge, type Finder } from '../support/reanchoring/tally.ts'
import { isGfmThere, readPairs, type Half } from '../support/reanchoring/texts.ts'
import { placeMapsOf, verdictOn, type Verdict } from '../support/reanchoring/truth.ts'

interface Case {
  readonly fragment: Fragment
  readonly verdict: Exclude<Verdict, { kind: 'unsettled' }>
}

/** What the library is allowed when it is on its own: two errors in five. */
const ERRORS_ALONE = 0.4
const finders: Readonly<Record<string, Finder>> = {
  Stillroom: (text, selector) => reanchor(text, selector)?.range ?? null,
  'first exact match': (text, { quote }) => occurrencesOf(text, quote.exact, 1)[0] ?? null,
  'library alone': (text, { quote: { exact } }) =>
    search(text, exact, Math.floor(exact.length * ERRORS_ALONE))[0] ?? null,
}

const pairs = readPairs()
const cases: Record<Half, Case[]> = { development: [], frozen: [] }
let unsettled = 0
for (const pair of pairs) {
  const maps = placeMapsOf(pair)
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
