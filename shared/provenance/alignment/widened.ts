/**
 * The edges of a place. Where a stretch lost words at an edge, what took their place belongs to it: up to where its
 * surroundings go on; else, where it began or ended with a line or a paragraph, to where that one does in which it stands.
 */
import type { Range } from '../../lab/model.ts'
import type { TextAlignment } from './partners.ts'
import type { Survivor } from './survivors.ts'
import { breakBefore, tokenAt } from './wording.ts'

/** What took the place of lost words is at most so much longer than they were: so many times, and so many code units. */
const MOST_TIMES = 2
const MOST_MORE = 10

/** A stretch of the older text in its tokens, and those of them that stand still, by their place in the newer text. */
export interface Carried {
  readonly stretch: Range
  /** Indexes of its tokens. */
  readonly tokens: Range
  readonly survivors: readonly Survivor[]
}

/** From the first to the last of the words that stand still, with what took the place of those lost at the edges. */
export function widened(alignment: TextAlignment, carried: Carried): Range {
  return { start: startOf(alignment, carried), end: endOf(alignment, carried) }
}

function startOf(alignment: TextAlignment, { stretch, tokens, survivors }: Carried): number {
  const { older, newer, partners } = alignment
  const start = survivors[0]!.start
  const first = survivors.reduce((least, { token }) => Math.min(least, token), tokens.end)
  if (first === tokens.start) return start
  const least = start - MOST_TIMES * (older.starts[first]! - stretch.start) - MOST_MORE
  const before = tokens.start === 0 ? -1 : partners[tokens.start - 1]!
  if (before >= 0) {
    const outer = newer.starts[before + 1]!
    if (outer < start && outer >= least) return outer
  }
  const wanted = older.starts[tokens.start]! >= stretch.start ? older.breaks[tokens.start]! : breakBefore.none
  if (wanted === breakBefore.none) return start
  let at = tokenAt(newer.ends, start)
  while (newer.breaks[at]! < wanted && isFree(alignment, at - 1, tokens)) at--
  return newer.breaks[at]! >= wanted && newer.starts[at]! >= least
    ? Math.min(start, newer.starts[at]!)
    : start
}

function endOf(alignment: TextAlignment, { stretch, tokens, survivors }: Carried): number {
  const { older, newer, partners } = alignment
  const end = survivors.at(-1)!.end
  const last = survivors.reduce((most, { token }) => Math.max(most, token), 0)
  if (last === tokens.end - 1) return end
  const most = end + MOST_TIMES * (stretch.end - older.ends[last]!) + MOST_MORE
  const behind = tokens.end === older.ids.length ? -1 : partners[tokens.end]!
  if (behind > 0) {
    const outer = newer.ends[behind - 1]!
    if (outer > end && outer <= most) return outer
  }
  const wanted =
    older.ends[tokens.end - 1]! <= stretch.end ? breakAt(older.breaks, tokens.end) : breakBefore.none
  if (wanted === breakBefore.none) return end
  let at = tokenAt(newer.ends, end - 1)
  while (breakAt(newer.breaks, at + 1) < wanted && isFree(alignment, at + 1, tokens)) at++
  return breakAt(newer.breaks, at + 1) >= wanted && newer.ends[at]! <= most
    ? Math.max(end, newer.ends[at]!)
    : end
}

/** A text ends like a paragraph. */
const breakAt = (breaks: Uint8Array, token: number): number => breaks[token] ?? breakBefore.paragraph

/** Whether a token of the newer text came from nowhere else in the older one. */
function isFree({ origins }: TextAlignment, token: number, { start, end }: Range): boolean {
  const from = origins[token]!
  return from < 0 || (from >= start && from < end)
}
