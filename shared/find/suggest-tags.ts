/** Suggests tags for a text: the person's own first, then key phrases of the text itself. */
import { findKeyPhrases } from './key-phrases.ts'
import { ownTagConstants, scoreOwnTags, type OwnTagConstants } from './own-tags.ts'
import { withoutTexts, type TagModel } from './tag-model.ts'
import { toTermCounts, type TaggableText } from './tag-terms.ts'

/** Why a tag is suggested. */
export type TagReason =
  /**
   * One of the person's own tags: the nearest texts that carry it (ids, at most three, nearest first), whether its name
   * stands in the text, and how many of how many tagged texts carry it. Where no text is near and it is not named, it is
   * suggested only because it is used often.
   */
  | {
      readonly from: 'own tags'
      readonly near: readonly string[]
      readonly isNamed: boolean
      readonly used: number
      readonly of: number
    }
  /** A phrase of the text that is no tag yet. */
  | { readonly from: 'text' }

export interface TagSuggestion {
  readonly tag: string
  /** Greater suits better. To be compared only among suggestions with the same kind of reason; own tags: 0 to 1. */
  readonly score: number
  readonly why: TagReason
}

/** What tags are wanted for: an id where it may have been learnt or judged before, and the tags it has already. */
export interface UntaggedText extends TaggableText {
  readonly id?: string
  readonly tags?: readonly string[]
}

/** How many suggestions are wanted at most. */
export interface Wanted {
  readonly own: number
  readonly phrases: number
}

/**
 * Tags that suit a text, best first, own tags before phrases. Never one that the text has, nor one that was answered for
 * it: refused, or accepted and later taken off again. The same model and text always give the same answer. A text that
 * was learnt is judged by the others alone: that it lacks a tag must not speak against that tag.
 */
export function suggestTags(
  model: TagModel,
  text: UntaggedText,
  wanted: Wanted = { own: 7, phrases: 3 },
  constants: OwnTagConstants = ownTagConstants,
): TagSuggestion[] {
  const { id } = text
  const has = new Set((text.tags ?? []).map(toTagKey))
  const isAnswered = (tag: string): boolean => id !== undefined && (model.verdicts.get(tag)?.has(id) ?? false)
  const others = id !== undefined && model.texts.has(id) ? withoutTexts(model, [id]) : model
  const own = scoreOwnTags(others, toTermCounts(text), id, constants)
    .filter(({ tag }) => !has.has(toTagKey(tag)) && !isAnswered(tag))
    .slice(0, wanted.own)
    .map(({ tag, score, near, isNamed }): TagSuggestion => ({
      tag,
      score,
      why: { from: 'own tags', near, isNamed, used: others.uses.get(tag)!, of: others.texts.size },
    }))
  const known = new Set([...model.uses.keys()].map(toTagKey))
  const phrases = findKeyPhrases(model, text, wanted.phrases + has.size + MOST_PASSED_OVER)
    .filter(({ phrase }) => !has.has(toTagKey(phrase)) && !known.has(toTagKey(phrase)) && !isAnswered(phrase))
    .slice(0, wanted.phrases)
    .map(({ phrase, score }): TagSuggestion => ({ tag: phrase, score, why: { from: 'text' } }))
  return [...own, ...phrases]
}

/** Key phrases that are own tags or were answered are passed over; so many of them still leave some to suggest. */
const MOST_PASSED_OVER = 20

/** Tags that differ only in case or in what joins their words are one: they have the same key. */
export function toTagKey(tag: string): string {
  return tag
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
}
