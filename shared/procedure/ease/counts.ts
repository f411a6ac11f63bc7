/** The counts that the formulas of reading ease ask for. */
import { syllable } from 'syllable'
import { proseOf } from './prose.ts'
import { sentencesIn, wordsIn } from './sentences.ts'

export interface TextCounts {
  readonly sentences: number
  readonly words: number
  /** Rough: counted by rules of spelling. */
  readonly syllables: number
  /** Letters alone (Coleman–Liau). */
  readonly letters: number
  /** Letters and digits (ARI). */
  readonly characters: number
  /** Words of three syllables or more, without compounds with a hyphen, names and endings -ed, -es, -ing (Gunning Fog). */
  readonly complexWords: number
  /** Words of three syllables or more (SMOG). */
  readonly polysyllables: number
  /** Words of the longest sentence. */
  readonly longest: number
}

/** Counts the prose of a Markdown text; code, tables and addresses count nothing. */
export function countProse(markdown: string): TextCounts {
  const sentences = proseOf(markdown).flatMap(({ text }) =>
    sentencesIn(text).map(({ start, end }) => {
      const sentence = text.slice(start, end)
      return wordsIn(sentence).map((word) => sentence.slice(word.start, word.end))
    }),
  )
  const spoken = sentences.filter((words) => words.length > 0)
  const words = spoken.flatMap((sentence) =>
    sentence.map((word, i) => ({ word, isFirst: i === 0, syllables: syllablesOf(word) })),
  )
  const sum = (amount: (one: (typeof words)[number]) => number): number =>
    words.reduce((total, one) => total + amount(one), 0)
  return {
    sentences: spoken.length,
    words: words.length,
    syllables: sum((one) => one.syllables),
    letters: sum(({ word }) => word.match(/\p{L}/gu)?.length ?? 0),
    characters: sum(({ word }) => word.match(/[\p{L}\p{N}]/gu)?.length ?? 0),
    complexWords: sum(({ word, isFirst }) => Number(isComplex(word, isFirst))),
    polysyllables: sum((one) => Number(one.syllables >= 3)),
    longest: Math.max(0, ...spoken.map((sentence) => sentence.length)),
  }
}

/**
 * Syllables of a word, at least one. Paths, versions, file names, addresses and numbers count as one: how they are spoken
 * is anybody's guess, and a formula made for English prose should not take them for hard words.
 */
export function syllablesOf(word: string): number {
  if (!/^\p{L}+(?:['’-]\p{L}+)*$/u.test(word)) return 1
  return Math.max(1, syllable(word))
}

/** Gunning 1952: not counted are names (a capital within a sentence), compounds, and what an ending brings to three. */
function isComplex(word: string, isFirst: boolean): boolean {
  if (syllablesOf(word) < 3 || word.includes('-') || (!isFirst && /^\p{Lu}/u.test(word))) return false
  const stem = word.replace(/(?:es|ed|ing)$/i, '')
  return stem === word || syllablesOf(stem) >= 3
}
