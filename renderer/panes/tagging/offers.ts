/** What the field for tags offers: own tags that fit what was typed, and suggestions told apart by why they are made. */
import { toTagKey } from '../../../shared/find/suggest-tags.ts'
import type { SuggestedTag } from '../../workers/tags.ts'

/** A tag of the lab, and how many things carry it. */
export interface OwnTag {
  readonly tag: string
  readonly uses: number
}

/** So many own tags are offered at once. */
const MOST_OFFERED = 8

/** Own tags with how many of these lists hold them, the most used first. */
export function countTags(lists: Iterable<readonly string[]>): OwnTag[] {
  const uses = new Map<string, number>()
  for (const tags of lists) for (const tag of tags) uses.set(tag, (uses.get(tag) ?? 0) + 1)
  return [...uses]
    .map(([tag, count]) => ({ tag, uses: count }))
    .sort((one, other) => other.uses - one.uses || one.tag.localeCompare(other.tag))
}

/**
 * The own tags that fit what was typed: those that begin with it, then those with a word that does. All fit nothing typed.
 * @param own the most used first
 * @param has what the thing has already
 */
export function offersFor(typed: string, own: readonly OwnTag[], has: readonly string[]): OwnTag[] {
  const wanted = toTagKey(typed.trim())
  const free = own.filter(({ tag }) => !has.includes(tag))
  const begins = free.filter(({ tag }) => toTagKey(tag).startsWith(wanted))
  const within = free.filter((one) => !begins.includes(one) && hasWordFrom(toTagKey(one.tag), wanted))
  return [...begins, ...within].slice(0, MOST_OFFERED)
}

function hasWordFrom(tag: string, wanted: string): boolean {
  for (let at = tag.indexOf(wanted); at >= 0; at = tag.indexOf(wanted, at + 1))
    if (!/[\p{L}\p{N}]/u.test(tag.charAt(at - 1))) return true
  return false
}

/** A tag in the spelling that the lab has for it, where it differs only in case or in what joins its words. */
export function toOwnSpelling(tag: string, own: readonly OwnTag[]): string {
  if (own.some((one) => one.tag === tag)) return tag
  const key = toTagKey(tag)
  return own.find((one) => toTagKey(one.tag) === key)?.tag ?? tag
}

/** Why a tag is suggested, in words. */
export function wordsOfWhy(why: SuggestedTag['why']): string {
  switch (why.kind) {
    case 'named':
      return 'stands in the text'
    case 'near':
      return `near “${why.name}”`
    case 'often':
      return 'often used'
    case 'phrase':
      return 'from the text'
  }
}

export interface SuggestionGroup {
  readonly words: string
  readonly tags: readonly SuggestedTag[]
}

/** Suggestions with the same reason stand together, in the place of the first of them. */
export function groupsOf(suggestions: readonly SuggestedTag[]): SuggestionGroup[] {
  const groups = new Map<string, SuggestedTag[]>()
  for (const suggestion of suggestions) {
    const words = wordsOfWhy(suggestion.why)
    groups.set(words, [...(groups.get(words) ?? []), suggestion])
  }
  return [...groups].map(([words, tags]) => ({ words, tags }))
}
