/** Which of the suggestions are shown to a person, and how they are told apart. */
import type { TagSuggestion } from './suggest-tags.ts'

/** More than this cannot be taken in at a glance. */
export const MOST_SHOWN = 7

/** Own tags leave room for so many phrases where the text has them. */
const ROOM_FOR_PHRASES = 2

/** An own tag that is less likely than this is not worth a glance. */
const LEAST_SCORE = 0.1

/**
 * The suggestions that are worth showing, at most seven: own tags for which something in the text speaks, then phrases.
 * @param suggestions best first, own tags before phrases
 */
export function worthShowing(suggestions: readonly TagSuggestion[]): TagSuggestion[] {
  const own = suggestions.filter(
    ({ score, why }) =>
      why.from === 'own tags' && (why.isNamed || (why.near.length > 0 && score >= LEAST_SCORE)),
  )
  const phrases = suggestions.filter(({ why }) => why.from === 'text')
  const room = MOST_SHOWN - Math.min(ROOM_FOR_PHRASES, phrases.length)
  return [...own.slice(0, room), ...phrases].slice(0, MOST_SHOWN)
}

/**
 * How likely it was held that a suggestion would be accepted, 0 to 1: what a verdict remembers. A phrase's score is none
 * of that kind; it promises nothing.
 */
export function chanceOf({ score, why }: Pick<TagSuggestion, 'score' | 'why'>): number {
  return why.from === 'own tags' ? score : 0
}
