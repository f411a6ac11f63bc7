import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { wordsOf } from '../../../../shared/provenance/selectors.ts'
import { lengthOfCommonSubsequence, shareOfWords } from '../../../../shared/provenance/words.ts'

/** The longest common subsequence by trying every choice. */
function naive(a: readonly string[], b: readonly string[]): number {
  if (a.length === 0 || b.length === 0) return 0
  const [x, ...restA] = a
  const skipped = naive(restA, b)
  const at = b.indexOf(x!)
  return at < 0 ? skipped : Math.max(skipped, 1 + naive(restA, b.slice(at + 1)))
}

const text = (most: number) =>
  fc
    .array(
      fc.tuple(
        fc.constantFrom('dump', 'the', 'disk', '`lsblk', 'é'),
        fc.constantFrom(' ', '\n', '\t', '  \n> '),
      ),
      {
        maxLength: most,
      },
    )
    .map((words) => words.flat().join(''))

describe('the share of words kept', () => {
  it('is the longest common subsequence over the number of carried words', () => {
    fc.assert(
      fc.property(text(9), text(9), (carried, present) => {
        const [a, b] = [wordsOf(carried), wordsOf(present)]
        expect(lengthOfCommonSubsequence(a, b)).toBe(naive(a, b))
        expect(shareOfWords(carried, present)).toBe(a.length === 0 ? 1 : naive(a, b) / a.length)
      }),
      { numRuns: 500 },
    )
  })

  it('is 1 for the same words, however they are spaced, and 0 for none of them', () => {
    expect(shareOfWords('stop  the\nlogger', 'stop the logger')).toBe(1)
    expect(shareOfWords('stop the logger', '')).toBe(0)
    expect(shareOfWords('', 'anything')).toBe(1)
  })

  it('stays within 0 and 1, and quick, for texts of very many words', () => {
    const many = Array.from({ length: 30_000 }, (_, i) => `w${i % 7919}`)
    const share = shareOfWords(
      ['first', ...many, 'end'].join(' '),
      ['other', ...many.reverse(), 'else'].join(' '),
    )
    expect(share).toBeGreaterThan(0)
    expect(share).toBeLessThanOrEqual(1)
  })
})
