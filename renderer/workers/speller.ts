/** The dictionaries, the words of the trade and the lab's own words as one. */
import nspell, { type Speller } from 'nspell'
import { WordCount, wordsOfName } from '../../shared/journal/spelling/labWords.ts'
import { tradeWords } from '../../shared/journal/spelling/tradeWords.ts'
import type { Queries } from '../db/queries.ts'
import { addedWords } from './addedWords.ts'
import type { Misspelt } from './spelling.ts'

const MOST_SUGGESTIONS = 5
/** Looking for what was meant takes some milliseconds a word. */
const MOST_SUGGESTED = 60
/** So much of the sources is read for words, the newest source first. UTF-16 code units. */
const MOST_READ = 4_000_000

/**
 * One for each dictionary: nspell 2 takes every word for right once it has two.
 *
 * @param aff rules of affixes, the same for all @param dics American and British English, for instance
 */
export function makeSpellers(aff: string, dics: readonly string[]): Speller[] {
  return dics.map((dic) => {
    const speller = nspell(aff, dic)
    for (const word of tradeWords) speller.add(word)
    return speller
  })
}

export function misspeltAmong(
  spellers: readonly Speller[],
  own: ReadonlySet<string>,
  words: readonly string[],
): Misspelt[] {
  const isOwn = (word: string): boolean => own.has(word) || own.has(word.toLowerCase())
  const plain = (word: string): string => word.replace('’', "'")
  const isKnown = (word: string): boolean =>
    isOwn(word) ||
    isOwn(word.replace(/['’]s$/u, '')) ||
    spellers.some((speller) => speller.correct(plain(word)))
  return [...new Set(words)]
    .filter((word) => !isKnown(word))
    .map((word, at) => ({
      word,
      suggestions: at < MOST_SUGGESTED ? suggestionsFor(spellers, plain(word)) : [],
    }))
}

/** The nearest of each, in turn. */
function suggestionsFor(spellers: readonly Speller[], word: string): string[] {
  const lists = spellers.map((speller) => speller.suggest(word).slice(0, MOST_SUGGESTIONS))
  const inTurn = Array.from({ length: MOST_SUGGESTIONS }, (_, at) =>
    lists.flatMap((list) => list.slice(at, at + 1)),
  )
  return [...new Set(inTurn.flat())].slice(0, MOST_SUGGESTIONS)
}

/** The part of a lab that its words come from. */
export type WordQueries = Pick<
  Queries,
  'machines' | 'sources' | 'projects' | 'allEntryTags' | 'findNewestCapture'
>

/**
 * The lab's own words: of machines, tags and projects' names, those that were added, and what its sources say again and
 * again. @param added what the lab keeps as added, if it is a list of words
 */
export async function labWordsOf(queries: WordQueries, added: unknown): Promise<Set<string>> {
  const [machines, sources, projects, tags] = await Promise.all([
    queries.machines(),
    queries.sources(),
    queries.projects(),
    queries.allEntryTags(),
  ])
  const names = [
    ...machines.flatMap(({ name, addresses, aliases }) => [name, ...addresses, ...(aliases ?? [])]),
    ...[...sources, ...projects, ...tags].flatMap((one) => one.tags),
  ]
  const count = new WordCount()
  let left = MOST_READ
  for (const { id } of sources.toReversed()) {
    if (left <= 0) break
    const text = (await queries.findNewestCapture(id))?.text.slice(0, left) ?? ''
    left -= text.length
    count.add(text)
  }
  return new Set([...names.flatMap(wordsOfName), ...count.often(), ...addedWords(added)])
}
