/** Key phrases of a text by itself: runs of up to three words that stand often in it and rarely in the others. */
import { rarityOf } from './nearness.ts'
import type { TagModel } from './tag-model.ts'
import { compareText, MOST_READ, wordsOfAddress, type TaggableText } from './tag-terms.ts'
import { isFunctionWord, toTokens, type Token } from './tokens.ts'

export interface KeyPhrase {
  /** In lower case, one blank between words. */
  readonly phrase: string
  readonly score: number
}

const LONGEST_PHRASE = 3
/** A phrase in the title counts as often as this many in the text. */
const TITLE_COUNTS = 3
/** What a further word adds to a phrase, as a share of the words' mean weight. */
const FURTHER_WORD = 0.3

interface Candidate {
  readonly phrase: string
  readonly keys: readonly string[]
  count: number
}

/** A text's key phrases, best first, none within another. The model only says which words are common. */
export function findKeyPhrases(
  model: TagModel,
  { title, text, address }: TaggableText,
  most: number,
): KeyPhrase[] {
  const candidates = new Map<string, Candidate>()
  addCandidates(candidates, title, TITLE_COUNTS)
  addCandidates(candidates, text.slice(0, MOST_READ), 1)
  // Of a link there is nothing else to go by.
  if (text === '') addCandidates(candidates, wordsOfAddress(address ?? ''), 1)
  const scored = [...candidates.values()]
    // Two words that stood side by side once are no phrase yet.
    .filter(({ keys, count }) => keys.length === 1 || count > 1)
    .map((candidate) => ({ ...candidate, score: scoreOf(model, candidate) }))
    .sort((one, other) => other.score - one.score || compareText(one.phrase, other.phrase))
  const chosen: typeof scored = []
  for (const candidate of scored) {
    if (chosen.length >= most) break
    if (!chosen.some((other) => isWithin(candidate.keys, other.keys) || isWithin(other.keys, candidate.keys)))
      chosen.push(candidate)
  }
  return chosen.map(({ phrase, score }) => ({ phrase, score }))
}

function scoreOf(model: TagModel, { keys, count }: Candidate): number {
  const sum = keys.reduce((so, key) => so + rarityOf(model, key), 0)
  return (1 + Math.log(count)) * (sum / keys.length) * (1 + FURTHER_WORD * (keys.length - 1))
}

function addCandidates(candidates: Map<string, Candidate>, text: string, times: number): void {
  const tokens = toTokens(text)
  for (const [first, token] of tokens.entries()) {
    if (!canBeTag(token)) continue
    const words = [token]
    addCandidate(candidates, words, times)
    while (words.length < LONGEST_PHRASE) {
      const next = tokens[first + words.length]
      if (!next || !canBeTag(next) || !/^[ \t]+$/.test(text.slice(words.at(-1)!.end, next.start))) break
      words.push(next)
      addCandidate(candidates, words, times)
    }
  }
}

function addCandidate(candidates: Map<string, Candidate>, words: readonly Token[], times: number): void {
  const keys = words.map(({ terms }) => terms[0]!)
  const key = keys.join(' ')
  const before = candidates.get(key)
  if (before) before.count += times
  else
    candidates.set(key, {
      phrase: words.map(({ written }) => written.normalize('NFKC').toLowerCase()).join(' '),
      keys,
      count: times,
    })
}

/** A word that may stand in a tag: it has a letter and three characters, and does not only join others. */
function canBeTag({ written }: Token): boolean {
  return written.length >= 3 && /\p{L}/u.test(written) && !isFunctionWord(written.toLowerCase())
}

function isWithin(inner: readonly string[], outer: readonly string[]): boolean {
  return ` ${outer.join(' ')} `.includes(` ${inner.join(' ')} `)
}
