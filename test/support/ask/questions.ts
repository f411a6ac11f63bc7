/** Questions with their right places; test/fixtures/ask/README.md says how each file of them was written. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'

export interface WrittenQuestion {
  readonly sort: 'how' | 'error' | 'why' | 'when' | 'what'
  readonly typed: string
  readonly places: readonly WrittenPlace[]
}

/** A thing of the sample lab by its key there, a step by its procedure's key and its number. */
export interface WrittenPlace {
  readonly key: string
  /** Of a source: words that the right passage holds. */
  readonly words: string | null
}

export interface WrittenQuestions {
  readonly questions: readonly WrittenQuestion[]
  /** About things that the lab is near to and says nothing of. */
  readonly withoutAnswer: readonly string[]
}

interface Kept {
  readonly questions: readonly (Omit<WrittenQuestion, 'places'> & { readonly places: readonly string[] })[]
  readonly withoutAnswer: readonly string[]
}

/**
 * @param part the half that was open while rules were set, the half that was frozen, what the rules were set by, or what they
 * were checked by when they had been set
 */
export function writtenQuestions(part: 'open' | 'frozen' | 'development' | 'check'): WrittenQuestions {
  const path = join(import.meta.dirname, `../../fixtures/ask/${part}.json`)
  const { questions, withoutAnswer } = JSON.parse(readFileSync(path, 'utf8')) as Kept
  return {
    questions: questions.map(({ sort, typed, places }) => ({ sort, typed, places: places.map(toPlace) })),
    withoutAnswer,
  }
}

function toPlace(kept: string): WrittenPlace {
  const [key = '', words = null] = kept.split(' | ')
  return { key, words }
}
