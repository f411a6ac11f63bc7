/** Ready cautions for the hazards of this trade: a start to adapt, not a substitute for judgement, training or local codes. */
import type { Caution, Harm } from './caution.ts'
import { dataTexts } from './texts-data.ts'
import { electricTexts } from './texts-electric.ts'
import { peopleTexts } from './texts-people.ts'
import { reachTexts } from './texts-reach.ts'

export interface ReadyCaution {
  readonly id: string
  /** A few words for a list. */
  readonly title: string
  readonly caution: Caution
  /** From which the signal word follows. */
  readonly harm: Harm
  /** Why this signal word and not the next one. */
  readonly why: string
  /** Whose word counts more than ours; null where only things are at stake. */
  readonly defersTo: string | null
  /** Words by which it is found beside those of its texts. */
  readonly words: readonly string[]
}

/** All ready cautions, people before things. */
export const readyCautions: readonly ReadyCaution[] = [
  ...electricTexts,
  ...peopleTexts,
  ...dataTexts,
  ...reachTexts,
]

/** Those that hold every word asked for, as the start of a word; the ones with it in their title or words come first. */
export function findReadyCautions(query: string): ReadyCaution[] {
  const asked = wordsOf(query)
  const holds = (words: readonly string[]): boolean =>
    asked.every((word) => words.some((one) => one.startsWith(word)))
  const near = readyCautions.filter((ready) => holds(wordsOf([ready.title, ...ready.words].join(' '))))
  const far = readyCautions.filter((ready) => !near.includes(ready) && holds(wordsOf(allText(ready))))
  return [...near, ...far]
}

function allText({ title, words, caution }: ReadyCaution): string {
  return [title, ...words, caution.hazard, caution.consequence, caution.avoidance].join(' ')
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []
}
