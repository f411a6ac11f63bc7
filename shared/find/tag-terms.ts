/** What of a text counts for its tags: its words with how often they stand there, those of the title more. */
import { isFunctionWord, toTokens } from './tokens.ts'

/** Anything that can be tagged: a source, a journal entry, a project. */
export interface TaggableText {
  readonly title: string
  readonly text: string
  /** Absolute URL where there is one. */
  readonly address?: string | null
}

/** Terms and their counts, sorted by term (UTF-16 order), so that the same text always gives the same value. */
export type TermCounts = readonly (readonly [term: string, count: number])[]

/** A word of the title counts as often as this many in the text. */
const TITLE_COUNTS = 3

/** A text keeps that many of its terms, the commonest and first ones: about 20 kB of memory for each tagged page. */
export const MOST_TERMS = 128

/** The start of a text tells what it is about; the rest of a very long one is not read. UTF-16 code units. */
export const MOST_READ = 100_000

/** The terms of a text; see {@link TermCounts}. */
export function toTermCounts({ title, text, address }: TaggableText): TermCounts {
  const counts = new Map<string, number>()
  const count = (words: string, times: number): void => {
    for (const token of toTokens(words)) {
      if (isFunctionWord(token.written.toLowerCase())) continue
      for (const term of token.terms) counts.set(term, (counts.get(term) ?? 0) + times)
    }
  }
  count(title, TITLE_COUNTS)
  count(wordsOfAddress(address ?? ''), 1)
  count(text.slice(0, MOST_READ), 1)
  // The sort is stable: of terms that stand equally often, those that come first are kept.
  const kept = [...counts].sort((one, other) => other[1] - one[1]).slice(0, MOST_TERMS)
  return kept.sort(([one], [other]) => compareText(one, other))
}

/** The words of an address that may say what it is about: host and path, without what nearly every address has. */
export function wordsOfAddress(address: string): string {
  const [, host = '', path = ''] = /^[a-z][a-z0-9+.-]*:\/\/([^/?#]*)([^?#]*)/i.exec(address) ?? []
  const labels = host.replace(/^.*@|:\d*$/g, '').split('.')
  const names = /^[\d.]+$/.test(host) ? [host] : labels.slice(0, -1).filter((label) => label !== 'www')
  return [...names, ...path.replace(/\.(?:html?|php|aspx?)$/i, '').split('/')].join(' ')
}

/** Orders texts by their UTF-16 code units: the same on every machine and in every language. */
export function compareText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0
}
