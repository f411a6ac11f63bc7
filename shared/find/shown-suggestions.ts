/** Which of the suggestions are shown to a person, and how they are told apart. */
import { MASK } from '../safety/mask.ts'
import type { TagSuggestion } from './suggest-tags.ts'

/** More than this cannot be taken in at a glance. */
export const MOST_SHOWN = 7

/** So many phrases stand beside own tags, and so many where there are none. */
const PHRASES = { beside: 3, alone: 5 }

/**
 * An own tag that is less likely than this is not worth a glance: where something in the text speaks for it, and where it
 * is only used often. Chosen by what they leave out on debtags; they are no part of what is measured there at seven.
 */
export const LEAST_SCORE = { near: 0.2, often: 0.5 }

/**
 * The suggestions that are worth showing, at most seven: own tags that are likely enough, then phrases. A
 * tag that was struck out says nothing to anybody.
 * @param suggestions best first, own tags before phrases
 */
export function worthShowing(suggestions: readonly TagSuggestion[]): TagSuggestion[] {
  const readable = suggestions.filter(({ tag }) => !tag.includes(MASK))
  const own = readable.filter(
    ({ score, why }) =>
      why.from === 'own tags' &&
      (why.isNamed || score >= (why.near.length > 0 ? LEAST_SCORE.near : LEAST_SCORE.often)),
  )
  const all = readable.filter(({ why }) => why.from === 'text')
  const phrases = all.slice(0, own.length === 0 ? PHRASES.alone : PHRASES.beside)
  return [...own.slice(0, MOST_SHOWN - Math.min(2, phrases.length)), ...phrases].slice(0, MOST_SHOWN)
}

/**
 * How likely it was held that a suggestion would be accepted, 0 to 1: what a verdict remembers. A phrase's score is none
 * of that kind; it promises nothing.
 */
export function chanceOf({ score, why }: Pick<TagSuggestion, 'score' | 'why'>): number {
  return why.from === 'own tags' ? score : 0
}
