/**
 * Two times a hundred fragments of published texts, and where they are in the later version by our own judgement
 * (test/support/reanchoring/judged.ts): drawn at large, evenly from all that count of the frozen half; and drawn from the
 * hard ones, mostly such as algorithms do not agree on.
 */
import { describe, expect, it } from 'vitest'
import atLarge from '../fixtures/reanchoring/at-large.json'
import hard from '../fixtures/reanchoring/judged.json'
import { drawAtLarge } from '../support/reanchoring/at-large.ts'
import { firstExactMatch, libraryAlone, ownFinder, ownFinderByQuote } from '../support/reanchoring/finders.ts'
import { judgedCases, measure, type JudgedCase, type Shares } from '../support/reanchoring/judged.ts'
import { isGfmThere, readPairs } from '../support/reanchoring/texts.ts'

const pairs = readPairs()
const cases = { atLarge: judgedCases(atLarge, pairs), hard: judgedCases(hard, pairs) }

interface AllShares {
  readonly own: Shares
  readonly byQuote: Shares
  readonly first: Shares
  readonly library: Shares
}

function measureAll(name: string, judged: readonly JudgedCase[]): AllShares {
  const shares = {
    own: measure(judged, ownFinder),
    byQuote: measure(judged, ownFinderByQuote),
    first: measure(judged, firstExactMatch),
    library: measure(judged, libraryAlone),
  }
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

  it('are found again as they were judged in nine of ten cases drawn at large, and wrongly in less than one of a hundred', () => {
    const { own, byQuote, first, library } = measureAll('at large', cases.atLarge)
    expect(own.right).toBeGreaterThanOrEqual(0.9)
    expect(own.wrong).toBeLessThan(0.01)
    // By the quote alone, where the text that they were carried from is not known: held as a floor, below what is aimed at.
    expect(byQuote.right).toBeGreaterThanOrEqual(0.85)
    expect(byQuote.wrong).toBeLessThanOrEqual(0.012)
    expect(byQuote.right).toBeGreaterThan(Math.max(first.right, library.right))
    expect(byQuote.wrong).toBeLessThan(Math.min(first.wrong, library.wrong))
  })

  it('are found again in seven of ten hard cases, wrongly in one of twenty-five at most', () => {
    const { own, byQuote, first, library } = measureAll('hard ones', cases.hard)
    expect(own.right).toBeGreaterThanOrEqual(0.7)
    expect(own.wrong).toBeLessThanOrEqual(0.04)
    expect(byQuote.right).toBeGreaterThanOrEqual(0.55)
    expect(byQuote.wrong).toBeLessThanOrEqual(0.05)
    expect(byQuote.wrong).toBeLessThan(Math.min(first.wrong, library.wrong))
  })
})
