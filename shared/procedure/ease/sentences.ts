/** Sentences and words of prose. */
import type { Range } from '../../lab/model.ts'
import { proseOf } from './prose.ts'

/** Abbreviations that never end a sentence. */
const never = new Set([
  'e.g.',
  'i.e.',
  'cf.',
  'vs.',
  'viz.',
  'resp.',
  'incl.',
  'approx.',
  'ca.',
  'dr.',
  'mr.',
  'mrs.',
  'ms.',
  'prof.',
  'st.',
])
/** Abbreviations that end none where a number follows. */
const beforeNumber = new Set([
  'no.',
  'nos.',
  'fig.',
  'figs.',
  'sec.',
  'sect.',
  'ch.',
  'p.',
  'pp.',
  'vol.',
  'eq.',
  'tab.',
  'art.',
  'ver.',
  'min.',
  'max.',
])

/**
 * The sentences of a block of prose, without the blanks between. A stop within a word (a version, a path, a file's name, an
 * address) ends none, nor one behind an abbreviation, nor one before a small letter.
 */
export function sentencesIn(text: string): Range[] {
  const found: Range[] = []
  const tokens = Array.from(text.matchAll(/\S+/g), (match) => ({
    start: match.index,
    end: match.index + match[0].length,
    text: match[0],
  }))
  let start: number | null = null
  for (const [i, token] of tokens.entries()) {
    start ??= token.start
    if (i < tokens.length - 1 && !isEnd(token.text, tokens[i + 1]!.text)) continue
    found.push({ start, end: token.end })
    start = null
  }
  return found.filter((range) => /[\p{L}\p{N}\ufffc]/u.test(text.slice(range.start, range.end)))
}

function isEnd(token: string, next: string): boolean {
  if (!/[.!?…]["'”’)\]»]*$/u.test(token)) return false
  const bare = token.replace(/^["'“‘([«]+|["'”’)\]»]+$/gu, '').toLowerCase()
  if (never.has(bare) || /^\p{L}\.$/u.test(bare)) return false
  const head = next.replace(/^["'“‘([«*_]+/u, '')
  if (beforeNumber.has(bare)) return !/^\d/.test(head)
  return /^[\p{Lu}\p{Lt}\p{N}\ufffc⁅]/u.test(head) || /[!?]["'”’)\]»]*$/u.test(token)
}

/** The words of prose: runs without blanks that hold a letter or a digit. What was left out, and placeholders, are none. */
export function wordsIn(text: string): Range[] {
  return Array.from(text.matchAll(/[^\s\ufffc—–]+/gu)).flatMap((match) => {
    const word = match[0]
    if (/⁅/u.test(word)) return []
    const first = word.search(/[\p{L}\p{N}]/u)
    if (first < 0) return []
    const trailing = /[^\p{L}\p{N}]*$/u.exec(word)![0].length
    return [{ start: match.index + first, end: match.index + word.length - trailing }]
  })
}

/** A sentence of a Markdown text and its words. */
export interface LongSentence {
  readonly range: Range
  readonly words: number
}

/**
 * Sentences with more than so many words, with their places in the Markdown text.
 * @param most 25 is what GOV.UK's writing guidance gives; plainlanguage.gov has 20 on average and none over 40
 */
export function longSentences(markdown: string, most = 25): LongSentence[] {
  return proseOf(markdown).flatMap((block) =>
    sentencesIn(block.text).flatMap(({ start, end }) => {
      const words = wordsIn(block.text.slice(start, end)).length
      if (words <= most) return []
      return [{ range: { start: block.places[start]!, end: block.places[end - 1]! + 1 }, words }]
    }),
  )
}
