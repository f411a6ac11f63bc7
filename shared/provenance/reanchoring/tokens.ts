/** A text in words, signs and blanks, as two wordings are laid beside each other. */
import type { Range } from '../../lab/model.ts'

export interface Token extends Range {
  /** What equal tokens share: all blanks without a line end are one, and all with one. */
  readonly key: string
  readonly isBlank: boolean
  /** What it counts for: a word its length, a run of one sign two at most, blanks next to nothing. */
  readonly weight: number
}

/** Above so many comparisons of tokens, texts are compared by lines. */
const MOST_COMPARISONS = 6_000_000

/**
 * The tokens of a text, in order and without gaps.
 * @param offset added to every place
 */
export function wordTokens(text: string, offset = 0): Token[] {
  return [...text.matchAll(/[\p{L}\p{N}]+|\s+|([^\p{L}\p{N}\s])\1*/gu)].map(({ index, 0: words }) => {
    const isBlank = /^\s/u.test(words)
    const end = index + words.length
    return {
      ...{ start: offset + index, end: offset + end, isBlank },
      key: isBlank ? (words.includes('\n') ? '\n' : ' ') : words,
      weight: isBlank ? 0.5 : /^[\p{L}\p{N}]/u.test(words) ? words.length : Math.min(words.length, 2),
    }
  })
}

function lineTokens(text: string, offset = 0): Token[] {
  return [...text.matchAll(/[^\n]+|\n+/gu)].map(({ index, 0: words }) => ({
    ...{ start: offset + index, end: offset + index + words.length, isBlank: /^\s*$/u.test(words) },
    key: /^\s*$/u.test(words) ? '\n' : words.trim(),
    weight: /^\s*$/u.test(words) ? 0.5 : words.trim().length,
  }))
}

/** A carried stretch between what stood around it, ready to be laid beside a text. */
export interface Pattern {
  readonly tokens: readonly Token[]
  /** The stretch itself, without what stood around it. */
  readonly exact: Range
}

/** Both sides in tokens of one sort: words where they are few enough to be compared, else lines. */
export function tokensOfBoth(
  [prefix, exact, suffix]: readonly [string, string, string],
  text: string,
): { readonly pattern: Pattern; readonly there: readonly Token[] } {
  const inWords = sides([prefix, exact, suffix], text, wordTokens)
  const isShort = inWords.pattern.tokens.length * inWords.there.length <= MOST_COMPARISONS
  return isShort ? inWords : sides([prefix, exact, suffix], text, lineTokens)
}

function sides(
  [prefix, exact, suffix]: readonly [string, string, string],
  text: string,
  tokensOf: (text: string, offset?: number) => Token[],
): ReturnType<typeof tokensOfBoth> {
  const [start, end] = [prefix.length, prefix.length + exact.length]
  // Each of the three by itself, so that no token reaches over an edge.
  const tokens = [...tokensOf(prefix), ...tokensOf(exact, start), ...tokensOf(suffix, end)]
  return { pattern: { tokens, exact: { start, end } }, there: tokensOf(text) }
}
