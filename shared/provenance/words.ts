/** How much of one wording stands in another. */
import { wordsOf } from './selectors.ts'

/** Above this many comparisons the longest common subsequence is not computed exactly. */
const MOST_COMPARISONS = 4_000_000

/**
 * Share of the carried words that stand in the present ones in the same order:
 * length of the longest common subsequence of words over the number of carried words.
 * For very long texts whose middles differ, common words are counted without regard to order, an upper bound.
 * @returns 0 to 1; 1 where no words were carried
 */
export function shareOfWords(carried: string, present: string): number {
  if (carried === present) return 1
  const a = wordsOf(carried)
  const b = wordsOf(present)
  if (a.length === 0) return 1
  const most = Math.min(a.length, b.length)
  let start = 0
  while (start < most && a[start] === b[start]) start++
  let end = 0
  while (end < most - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++
  const middleA = a.slice(start, a.length - end)
  const middleB = b.slice(start, b.length - end)
  const middle =
    middleA.length * middleB.length <= MOST_COMPARISONS
      ? lengthOfCommonSubsequence(middleA, middleB)
      : countOfCommon(middleA, middleB)
  return (start + end + middle) / a.length
}

/** Length of the longest common subsequence of two sequences of words. */
export function lengthOfCommonSubsequence(a: readonly string[], b: readonly string[]): number {
  let row = new Array<number>(b.length + 1).fill(0)
  for (const word of a) {
    const next = [0]
    for (let j = 0; j < b.length; j++)
      next.push(word === b[j] ? row[j]! + 1 : Math.max(row[j + 1]!, next[j]!))
    row = next
  }
  return row[b.length]!
}

function countOfCommon(a: readonly string[], b: readonly string[]): number {
  const left = new Map<string, number>()
  for (const word of b) left.set(word, (left.get(word) ?? 0) + 1)
  let common = 0
  for (const word of a) {
    const count = left.get(word) ?? 0
    if (count > 0) {
      common++
      left.set(word, count - 1)
    }
  }
  return common
}
