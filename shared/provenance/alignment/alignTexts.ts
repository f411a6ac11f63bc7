/**
 * Lays an older text beside a newer one as a whole: which words of the one are which words of the other.
 *
 * 1. Lines, then runs of 16, 8 and 4 words and signs, that stand exactly once in both texts and keep their order, are the
 *    same (anchors.ts); between two of them what stands once there, and so on.
 * 2. What is left between them is paired word by word (fill.ts).
 * 3. Pairs that stand by chance are taken out again (strays.ts).
 * 4. Of what has no partner then, runs that stand once on each side were moved (moved.ts).
 *
 * Words after words that stand nowhere once, in stretches too long to be filled, are paired from both ends alone.
 * Pure, and without a clock: what is given up for its cost depends on the texts alone, so that a rebuild gives the same.
 */
import { anchorsIn, type Anchor, type Gap, type RunLength, type Sides } from './anchors.ts'
import { fillGap } from './fill.ts'
import { pairMoved } from './moved.ts'
import { none, setPair, type Draft, type TextAlignment } from './partners.ts'
import { hashesOf } from './runs.ts'
import { withoutStrays } from './strays.ts'
import { wordingsOf } from './wording.ts'

/** A gap of up to so many pairs of tokens is filled at once. */
const SMALL_GAP = 40_000
/** One of up to so many is filled where no longer run stands once on both sides; a larger one is left without partners. */
const LARGEST_GAP = 4_000_000
/** Pairs of tokens that are looked at in all. What comes then is left without partners. */
const MOST_PAIRS = 30_000_000
/** Code units of both texts together above which nothing is laid side by side: more than two texts of a megabyte. */
export const MOST_LENGTH = 2_500_000

const runLengths: readonly RunLength[] = ['lines', 16, 8, 4]
/** Only where a gap is too large to be filled. */
const shortRunLengths: readonly RunLength[] = [...runLengths, 2, 1]

/** The alignment of two texts; null where they are too long. */
export function alignTexts(olderText: string, newerText: string): TextAlignment | null {
  if (olderText.length + newerText.length > MOST_LENGTH) return null
  const [older, newer] = wordingsOf(olderText, newerText)
  const draft: Draft = {
    ...{ older, newer },
    partners: new Int32Array(older.ids.length).fill(none),
    origins: new Int32Array(newer.ids.length).fill(none),
    moved: new Uint8Array(older.ids.length),
  }
  const sides: Sides = { older, newer, olderHashes: hashesOf(older), newerHashes: hashesOf(newer) }
  const isComplete = alignInOrder(draft, sides)
  withoutStrays(draft)
  pairMoved(draft, sides)
  return { ...draft, isComplete }
}

/** @returns whether nothing was given up */
function alignInOrder(draft: Draft, sides: Sides): boolean {
  const { older, newer } = sides
  const whole = { start: 0, end: older.ids.length }
  const left: Gap[] = [{ older: whole, newer: { start: 0, end: newer.ids.length } }]
  let [pairs, isComplete] = [0, true]
  for (let gap = left.pop(); gap; gap = left.pop()) {
    const anchors = sizeOf(gap) <= SMALL_GAP ? [] : firstAnchors(gap, sides)
    if (anchors.length > 0) {
      left.push(...setAnchors(gap, anchors, draft))
      continue
    }
    const inner = sizeOf(gap) <= LARGEST_GAP ? gap : trimmed(gap, draft)
    pairs += Math.min(sizeOf(inner), LARGEST_GAP)
    if (sizeOf(inner) <= LARGEST_GAP && pairs <= MOST_PAIRS)
      fillGap(inner, older, newer, (from, to) => setPair(draft, from, to))
    else isComplete = false
  }
  return isComplete
}

const sizeOf = ({ older, newer }: Gap): number => (older.end - older.start) * (newer.end - newer.start)

/** The anchors of the longest runs that give any. */
function firstAnchors(gap: Gap, sides: Sides): Anchor[] {
  for (const length of sizeOf(gap) > LARGEST_GAP ? shortRunLengths : runLengths) {
    const anchors = anchorsIn(gap, sides, length)
    if (anchors.length > 0) return anchors
  }
  return []
}

/** Pairs the tokens of anchors, and gives the gaps that are left. */
function setAnchors(gap: Gap, anchors: readonly Anchor[], draft: Draft): Gap[] {
  const gaps: Gap[] = []
  let [older, newer] = [gap.older.start, gap.newer.start]
  const leave = (from: number, to: number): void => {
    if (from > older && to > newer)
      gaps.push({ older: { start: older, end: from }, newer: { start: newer, end: to } })
  }
  for (const { from, to, length } of anchors) {
    // Runs overlap; one that goes on elsewhere than the run before it is left to the gap.
    const skipped = Math.max(0, older - from, newer - to)
    if (skipped >= length || (skipped > 0 && from - older !== to - newer)) continue
    leave(from + skipped, to + skipped)
    for (let i = skipped; i < length; i++) setPair(draft, from + i, to + i)
    ;[older, newer] = [from + length, to + length]
  }
  leave(gap.older.end, gap.newer.end)
  return gaps
}

/** Pairs what both sides begin and end with, and gives the gap that is left. */
function trimmed({ older, newer }: Gap, draft: Draft): Gap {
  const [there, here] = [draft.older.ids, draft.newer.ids]
  const most = Math.min(older.end - older.start, newer.end - newer.start)
  let [before, behind] = [0, 0]
  for (; before < most && there[older.start + before] === here[newer.start + before]; before++)
    setPair(draft, older.start + before, newer.start + before)
  for (; before + behind < most && there[older.end - 1 - behind] === here[newer.end - 1 - behind]; behind++)
    setPair(draft, older.end - 1 - behind, newer.end - 1 - behind)
  return {
    older: { start: older.start + before, end: older.end - behind },
    newer: { start: newer.start + before, end: newer.end - behind },
  }
}
