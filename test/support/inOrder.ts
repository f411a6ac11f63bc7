/** How many of the words of one text stand in another, in the same order. */
import { diffArrays } from 'diff'

/**
 * Words as they are compared: runs of letters, digits and marks, after compatibility normalisation (NFKC), so that a ligature
 * is its letters. Scripts that are written without spaces count sign by sign. Words that a hyphen joins are one word, since at
 * the end of a line nobody can tell whether it stood there before.
 */
export function comparedWords(text: string): string[] {
  const joined = text.normalize('NFKC').replace(/(\p{L})[-\u00ad\u2010](?:[ \t]*\r?\n\s*)?(?=\p{L})/gu, '$1')
  return (
    joined.match(
      /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Thai}]|[\p{L}\p{N}\p{M}]+/gu,
    ) ?? []
  )
}

/**
 * The share of the wanted words that are there in order, 0 to 1; 1 where none is wanted. First by a walk that never finds too
 * many; where that finds fewer than `enough`, by the longest common subsequence (Myers 1986), which takes longer.
 */
export function shareInOrder(wanted: readonly string[], got: readonly string[], enough = 0.98): number {
  if (wanted.length === 0) return 1
  const walked = walk(wanted, got) / wanted.length
  if (walked >= enough) return walked
  const parts = diffArrays([...wanted], [...got], { timeout: 60_000 }) as
    | readonly { readonly added?: boolean; readonly removed?: boolean; readonly value: readonly string[] }[]
    | undefined
  if (!parts) return walked
  const kept = parts.reduce((sum, part) => (part.added || part.removed ? sum : sum + part.value.length), 0)
  return Math.max(walked, kept / wanted.length)
}

/**
 * The share of the words of a paged text that are there in order, page by page.
 * @param orders the same pages as read in several orders; for each page the nearest counts, since no reader of PDFs always
 *   finds the order of columns, tables and figures
 */
export function shareOfPages(orders: readonly (readonly string[])[], got: readonly string[]): number {
  let [all, kept] = [0, 0]
  for (let page = 0; page < Math.max(...orders.map(({ length }) => length)); page++) {
    const read = comparedWords(got[page] ?? '')
    const wanted = orders.map((order) => comparedWords(order[page] ?? ''))
    const best = wanted.reduce((most, one) => Math.max(most, shareInOrder(one, read, 1)), 0)
    all += wanted[0]!.length
    kept += best * wanted[0]!.length
  }
  return all === 0 ? 1 : kept / all
}

/** So many words ahead the walk looks for where the two texts meet again. */
const REACH = 400

function walk(wanted: readonly string[], got: readonly string[]): number {
  let [at, found] = [0, 0]
  for (let i = 0; i < wanted.length; i++) {
    if (wanted[i] === got[at]) {
      found++
      at++
      continue
    }
    // A single word may stand anywhere; three in a row show that the texts meet again.
    for (let ahead = at + 1; ahead < Math.min(got.length, at + REACH); ahead++)
      if ([0, 1, 2].every((more) => i + more >= wanted.length || got[ahead + more] === wanted[i + more])) {
        found++
        at = ahead + 1
        break
      }
  }
  return found
}
