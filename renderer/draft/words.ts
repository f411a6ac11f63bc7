/** What the panel says in words. */
import type { DraftItem } from './model.ts'

/** Why a person should look at a step before taking it. */
export const doubtWords: Readonly<Record<NonNullable<DraftItem['doubt']>, string>> = {
  'outcome unknown': 'Whether it worked is unknown. Look before you take it.',
  'effect unknown': 'What it does is unknown. Look before you take it.',
}
