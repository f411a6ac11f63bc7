/** Where exactly a carried stretch begins and ends within a window of a text, and how much of it stands there. */
import type { Range, Selector } from '../../lab/model.ts'
import { align, none, type Alignment } from './align.ts'
import { alignByEditScript } from './edit-script.ts'
import { likenessBefore, likenessBehind, nearContext } from './likeness.ts'
import { tokensOfBoth, type Pattern, type Token } from './tokens.ts'

/** Code units on both sides of a window that are looked at too, at least and as a share of the quote. */
const SLACK = 96
const SLACK_SHARE = 0.3
/** So much of the quote at an edge says whether that edge is where it was. */
const EDGE_LENGTH = 24
/** What stands between an edge's lost words and their surroundings took their place, up to twice as long and this. */
const SUCCEEDING = 10
/** Signs and blanks that may stand between the quote's edge and the nearest surviving word of its surroundings. */
const NEXT_TO = 3

/** When edges are chosen: the most that the quote counts for, and what is taken off for what was put in between. */
const MOST_QUOTE_WORTH = 96
const INSERTED_COST = 0.2
const MOST_INSERTED_COST = 30

export interface Stretch {
  readonly range: Range
  /** Of the quote's words, by weight, 0 to 1. */
  readonly share: number
  /** The same of its first and last 24 code units alone, near the edge. */
  readonly startShare: number
  readonly endShare: number
}

/** One side by side reading of the quote and the window. */
interface Reading extends Alignment {
  readonly pattern: Pattern
  readonly there: readonly Token[]
}

/** The stretch in a window that is likest to what was carried, by several alignments; null where no word stands there. */
export function findStretch(text: string, selector: Selector, window: Range): Stretch | null {
  const { exact } = selector.quote
  const { prefix, suffix } = nearContext(selector)
  const slack = Math.max(SLACK, Math.floor(exact.length * SLACK_SHARE))
  const from = Math.max(0, window.start - slack)
  const within = text.slice(from, Math.min(text.length, window.end + slack))
  const readings = readingsOf([prefix, exact, suffix], within)
  const best = bestEdges(readings, within, [prefix, exact, suffix])
  if (!best) return null
  const { pattern } = readings[0]!
  const [start, end] = [pattern.exact.start, pattern.exact.end]
  const share = (part: Range, place: Range): number =>
    Math.max(...readings.map((reading) => shareOf(reading, part, place)))
  return {
    range: { start: from + best.start, end: from + best.end },
    share: share(pattern.exact, best),
    startShare: share(
      { start, end: Math.min(end, start + EDGE_LENGTH) },
      { start: best.start, end: Math.min(best.end, best.start + 2 * EDGE_LENGTH) },
    ),
    endShare: share(
      { start: Math.max(start, end - EDGE_LENGTH), end },
      { start: Math.max(best.start, best.end - 2 * EDGE_LENGTH), end: best.end },
    ),
  }
}

function readingsOf(words: readonly [string, string, string], within: string): Reading[] {
  const { pattern, there } = tokensOfBoth(words, within)
  const alignments = [align(pattern.tokens, there), ...alignByEditScript(pattern.tokens, there)]
  return alignments.map((alignment) => ({ pattern, there, ...alignment }))
}

/** Of all starts and ends that a reading gives, the two that go best with the quote and its surroundings. */
function bestEdges(
  readings: readonly Reading[],
  within: string,
  [prefix, exact, suffix]: readonly [string, string, string],
): Range | null {
  const edges = readings.flatMap((reading) => edgesOf(reading) ?? [])
  const trimmed = edges.map((range) => withoutBlanks(within, exact, range))
  const starts = new Set(trimmed.map(({ start }) => start))
  const ends = new Set(trimmed.map(({ end }) => end))
  const worth = (range: Range): number => {
    const share = Math.max(...readings.map((reading) => shareOf(reading, reading.pattern.exact, range)))
    const inserted = Math.max(0, range.end - range.start - exact.length * share)
    return (
      share * Math.min(exact.length, MOST_QUOTE_WORTH) -
      Math.min(MOST_INSERTED_COST, INSERTED_COST * inserted) +
      likenessBefore(within, prefix, range.start) * prefix.length +
      likenessBehind(within, suffix, range.end) * suffix.length
    )
  }
  let best: { readonly range: Range; readonly worth: number } | null = null
  for (const start of starts)
    for (const end of ends) {
      const range = { start, end }
      if (start < end && (best === null || worth(range) > best.worth)) best = { range, worth: worth(range) }
    }
  return best?.range ?? null
}

/** From the first of the quote's words that has a partner to the last, and what took the place of those before and behind. */
function edgesOf(reading: Reading): Range | null {
  const { pattern, there, place } = reading
  const found = pattern.tokens.flatMap((token, i) =>
    isWithin(token, pattern.exact) && !token.isBlank && place[i] !== none ? [i] : [],
  )
  const [first, last] = [found[0], found.at(-1)]
  if (first === undefined || last === undefined) return null
  const start = there[place[first]!]!.start
  const end = there[place[last]!]!.end
  const lostBefore = pattern.tokens[first]!.start - pattern.exact.start
  const lostBehind = pattern.exact.end - pattern.tokens[last]!.end
  const outerStart = lostBefore > 0 ? placeBefore(reading, first) : null
  const outerEnd = lostBehind > 0 ? placeBehind(reading, last) : null
  return {
    start: outerStart !== null && start - outerStart <= 2 * lostBefore + SUCCEEDING ? outerStart : start,
    end: outerEnd !== null && outerEnd - end <= 2 * lostBehind + SUCCEEDING ? outerEnd : end,
  }
}

/** Behind what stood right before the quote, where that stands still. */
function placeBefore({ pattern, there, same }: Reading, first: number): number | null {
  for (let i = first - 1; i >= 0; i--)
    if (same[i] !== none)
      return pattern.exact.start - pattern.tokens[i]!.end <= NEXT_TO ? there[same[i]!]!.end : null
  return null
}

/** At what stood right behind the quote, where that stands still. */
function placeBehind({ pattern, there, same }: Reading, last: number): number | null {
  for (let i = last + 1; i < pattern.tokens.length; i++)
    if (same[i] !== none)
      return pattern.tokens[i]!.start - pattern.exact.end <= NEXT_TO ? there[same[i]!]!.start : null
  return null
}

/** How much of a part of the wording stands in a range of the window, by weight. 0 where the part is blank. */
function shareOf({ pattern, there, same }: Reading, part: Range, range: Range): number {
  let [all, standing] = [0, 0]
  pattern.tokens.forEach((token, i) => {
    if (token.isBlank || !isWithin(token, part)) return
    all += token.weight
    if (same[i] !== none && isWithin(there[same[i]!]!, range)) standing += token.weight
  })
  return all === 0 ? 0 : standing / all
}

function isWithin(inner: Range, outer: Range): boolean {
  return inner.start >= outer.start && inner.end <= outer.end
}

/** Without blanks at an edge where the quote has none. */
function withoutBlanks(text: string, exact: string, range: Range): Range {
  const words = text.slice(range.start, range.end)
  const before = /^\s/u.test(exact) ? 0 : words.length - words.trimStart().length
  const behind = /\s$/u.test(exact) ? 0 : words.length - words.trimEnd().length
  return { start: range.start + before, end: range.end - behind }
}
