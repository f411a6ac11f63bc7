/**
 * Two times a hundred fragments of published texts, and where they are in the later version by our own judgement
 * (test/support/reanchoring/judged.ts): drawn at large, evenly from all that count of the frozen half; and drawn from the
 * hard ones, mostly such as algorithms do not agree on.
 */
import { describe, expect, it } from 'vitest'
import atLarge from '../fixtures/reanchoring/at-large.json'
import hard from '../fixtures/reanchoring/judged.json'
import { drawAtLarge } from '../support/reanchoring/at-large.ts'
import { firstExactMatch, libraryAlone, ownFinder } from '../support/reanchoring/finders.ts'
import { judgedCases, measure, type JudgedCase, type Shares } from '../support/reanchoring/judged.ts'
import { isGfmThere, readPairs } from '../support/reanchoring/texts.ts'

const pairs = readPairs()
const cases = { atLarge: judgedCases(atLarge, pairs), hard: judgedCases(hard, pairs) }

function measureAll(
  name: string,
  judged: readonly JudgedCase[],
): Record<'own' | 'first' | 'library', Shares> {
  const [own, first, library] = [ownFinder, firstExactMatch, libraryAlone].map((find) =>
    measure(judged, find),
  )
  const shares = { own: own!, first: first!, library: library! }
  console.log(`${name}, judged by hand:`, shares)
  return shares
}

describe('fragments whose places were judged by hand', () => {
  it('are a hundred drawn at large and a hundred hard ones, of the very texts that were read', () => {
    const drawn = drawAtLarge(pairs).map(({ pair, start, end }) => [pair.name, start, end])
    expect(cases.atLarge.map(({ texts, fragment }) => [texts.name, fragment.start, fragment.end])).toEqual(
      drawn,
    )
    expect(atLarge.cases.length).toBe(100)
    expect(hard.cases.length).toBe(100)
    if (isGfmThere) expect(cases.atLarge.length).toBe(100)
  })

  // Held as a floor: nine of ten and less than one of a hundred are aimed at, and not reached on these.
  it('are found again as they were judged in more than 85 of 100 cases drawn at large, and wrongly in one at most', () => {
    const { own, first, library } = measureAll('at large', cases.atLarge)
    expect(own.right).toBeGreaterThanOrEqual(0.85)
    expect(own.wrong).toBeLessThanOrEqual(0.012)
    expect(own.right).toBeGreaterThan(Math.max(first.right, library.right))
    expect(own.wrong).toBeLessThan(Math.min(first.wrong, library.wrong))
  })

  it('are found again in more than half of the hard cases, wrongly in one of twenty at most', () => {
    const { own, first, library } = measureAll('hard ones', cases.hard)
    expect(own.right).toBeGreaterThanOrEqual(0.55)
    expect(own.wrong).toBeLessThanOrEqual(0.05)
    expect(own.wrong).toBeLessThan(Math.min(first.wrong, library.wrong))
  })
})
