/** How like a place of a text is to where a stretch was carried from: around it, and in all. */
import search from 'approx-string-match'
import type { Range, Selector } from '../../lab/model.ts'

/** Code units of prefix and suffix that a place is scored by. What stood further away only tells rivals apart. */
export const NEAR = 32
/** So far beside the place what stood around it may have moved. */
const MOST_SHIFT = 8

const MOST_QUOTE_WEIGHT = 64
const POSITION_WEIGHT = 1
/** A place so many code units from the carried one has half of what its position can count. */
const POSITION_SCALE = 2000

export interface Likeness {
  /** Share of the quote that stands there, 0 to 1; less where much was put in between. */
  readonly quote: number
  /** Of what stood right before and right behind, 0 to 1. */
  readonly before: number
  readonly behind: number
  /** All of it together with the position, 0 to 1. */
  readonly score: number
}

/** @param share how much of the quote's words stands in the range, 0 to 1 */
export function likenessAt(text: string, selector: Selector, range: Range, share: number): Likeness {
  const { exact } = selector.quote
  const { prefix, suffix } = nearContext(selector)
  const quote = share * Math.min(1, (exact.length * 1.5 + 20) / (range.end - range.start))
  const before = likenessBefore(text, prefix, range.start)
  const behind = likenessBehind(text, suffix, range.end)
  const position = 1 / (1 + Math.abs(range.start - selector.position.start) / POSITION_SCALE)
  const weights = [
    [quote, Math.min(tellingLength(exact), MOST_QUOTE_WEIGHT)],
    [before, tellingLength(prefix)],
    [behind, tellingLength(suffix)],
    [position, POSITION_WEIGHT],
  ] as const
  const all = weights.reduce((sum, [, weight]) => sum + weight, 0)
  const score = weights.reduce((sum, [value, weight]) => sum + value * weight, 0) / all
  return { quote, before, behind, score }
}

export function nearContext({ quote }: Selector): { readonly prefix: string; readonly suffix: string } {
  return { prefix: quote.prefix.slice(-NEAR), suffix: quote.suffix.slice(0, NEAR) }
}

/** Likeness of all that is known to have stood around it, 0 to 1; 1 where nothing is known. */
export function wholeContextLikeness(text: string, { quote }: Selector, { start, end }: Range): number {
  const { prefix, suffix } = quote
  const length = prefix.length + suffix.length
  if (length === 0) return 1
  const before = likenessBefore(text, prefix, start) * prefix.length
  return (before + likenessBehind(text, suffix, end) * suffix.length) / length
}

/** Code units that differ from the one before: a rule of dashes says as little as one dash. */
export function tellingLength(words: string): number {
  let count = 0
  for (let i = 0; i < words.length; i++) if (words[i] !== words[i - 1]) count++
  return count
}

/** 0 to 1; 1 where nothing stood before. */
export function likenessBefore(text: string, prefix: string, start: number): number {
  const standing = text.slice(Math.max(0, start - prefix.length - MOST_SHIFT), start)
  if (standing.endsWith(prefix)) return 1
  const [found] = search(standing, prefix, prefix.length)
  return found ? shareLeft(prefix, found.errors + standing.length - found.end) : 0
}

/** 0 to 1; 1 where nothing stood behind. */
export function likenessBehind(text: string, suffix: string, end: number): number {
  const standing = text.slice(end, end + suffix.length + MOST_SHIFT)
  if (standing.startsWith(suffix)) return 1
  const [found] = search(standing, suffix, suffix.length)
  return found ? shareLeft(suffix, found.errors + found.start) : 0
}

function shareLeft(words: string, errors: number): number {
  return Math.max(0, 1 - errors / words.length)
}
