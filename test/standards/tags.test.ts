/**
 * Suggested tags against those that people gave: the packages of Debian 12 with their descriptions and debtags
 * (https://wiki.debian.org/Debtags). No result has been published for this task, so three plain ways stand beside ours.
 */
import { describe, expect, it } from 'vitest'
import { worthShowing } from '../../shared/find/shown-suggestions.ts'
import { suggestTags } from '../../shared/find/suggest-tags.ts'
import { emptyTagModel, withTexts } from '../../shared/find/tag-model.ts'
import {
  bestBaseline,
  debtagsHalves,
  f1,
  hasDebtags,
  meanOf,
  pairedRandomisation,
  scoresAfter,
  shuffled,
  sizes,
} from '../bench/support/tags.ts'

describe.skipIf(!hasDebtags)('suggested tags against debtags', () => {
  it('are tested on texts that were not learnt', () => {
    const { learning, testing } = debtagsHalves()
    expect([learning.length, testing.length]).toEqual([1254, 1255])
    const learnt = new Set(learning.map(({ id }) => id))
    expect(testing.filter(({ id }) => learnt.has(id))).toEqual([])
  })

  it.each(sizes)(
    'are no worse than the best plain way after $learnt texts',
    { timeout: 60_000 },
    ({ learnt }) => {
      const scores = scoresAfter(learnt)
      expect(meanOf(scores.ours)).toBeGreaterThanOrEqual(meanOf(scores[bestBaseline(scores)]))
    },
  )

  it('are better than each plain way after 1,254 texts, by more than chance', () => {
    const scores = scoresAfter(1254)
    for (const way of ['most used', 'nearest', 'phrases'] as const) {
      expect(meanOf(scores.ours)).toBeGreaterThan(meanOf(scores[way]))
      expect(pairedRandomisation(scores.ours, scores[way])).toBeLessThan(0.01)
    }
  })

  it.each([10, 50, 250, 1254])(
    'are right more often where they are shown than where they are held to be too unlikely, after %i texts',
    (learnt) => {
      const { learning, testing } = debtagsHalves()
      const model = withTexts(emptyTagModel, shuffled(learning, 1).slice(0, learnt))
      const right = { shown: 0, hidden: 0 }
      const all = { shown: 0, hidden: 0 }
      for (const { title, text, tags } of testing.slice(0, 400)) {
        const seven = suggestTags(model, { title, text }, { own: 7, phrases: 0 })
        const shown = worthShowing(seven)
        for (const suggestion of seven) {
          const place = shown.includes(suggestion) ? 'shown' : 'hidden'
          all[place]++
          if (tags.includes(suggestion.tag)) right[place]++
        }
      }
      expect(right.shown / all.shown).toBeGreaterThan((1.5 * right.hidden) / all.hidden)
    },
  )

  it('have plain neighbours beside them that are no straw man', () => {
    const scores = scoresAfter(1254)
    expect(meanOf(scores.nearest) / meanOf(scores['most used'])).toBeGreaterThan(1.38)
  })
})

describe('the measure', () => {
  it('is the harmonic mean of precision and recall at seven', () => {
    // 2 hits of 7 suggestions, 4 wanted: P = 2/7, R = 1/2, F1 = 2PR/(P+R) = 4/11.
    expect(f1(['a', 'b', 'x1', 'x2', 'x3', 'x4', 'x5', 'c'], ['a', 'b', 'c', 'd'])).toBeCloseTo(4 / 11, 12)
    expect(f1(['a', 'a', 'a'], ['a', 'b'])).toBeCloseTo(2 / 9, 12)
    expect(f1([], ['a'])).toBe(0)
  })

  it('finds no difference between two ways that differ by luck, and one where one is always better', () => {
    const one = Array.from({ length: 200 }, (_, at) => (at % 7) / 7)
    const byLuck = one.map((value, at) => value + (at % 2 === 0 ? 0.1 : -0.1))
    expect(pairedRandomisation(one, byLuck)).toBeGreaterThan(0.5)
    expect(
      pairedRandomisation(
        one.map((value) => value + 0.01),
        one,
      ),
    ).toBeLessThan(0.001)
  })
})
