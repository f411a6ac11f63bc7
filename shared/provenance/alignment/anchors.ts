/**
 * Runs that stand exactly once in each of two stretches, in the order that they have in both: what B. Cohen's patience
 * diff does with lines. Of runs that cross each other those stay that weigh most together.
 */
import type { Range } from '../../lab/model.ts'
import { hashOf, isSameRun, type Hashes } from './runs.ts'
import { breakBefore, type Wording } from './wording.ts'

export interface Anchor {
  /** Index of the run's first token, in the older and in the newer text. */
  readonly from: number
  readonly to: number
  /** Tokens. */
  readonly length: number
  readonly weight: number
}

/** Two stretches of tokens that belong to each other. */
export interface Gap {
  readonly older: Range
  readonly newer: Range
}

/** Both texts with the hashes of their runs. */
export interface Sides {
  readonly older: Wording
  readonly newer: Wording
  readonly olderHashes: Hashes
  readonly newerHashes: Hashes
}

/** What runs are looked at: whole lines, or all of so many tokens. */
export type RunLength = 'lines' | number

const TWICE = -1

/** The anchors of a gap, in order. */
export function anchorsIn(gap: Gap, sides: Sides, length: RunLength): Anchor[] {
  return inOrder(uniqueRuns(gap, sides, length), gap.newer)
}

/** Runs that stand once in each stretch, by their place in the older text. */
function uniqueRuns(gap: Gap, sides: Sides, length: RunLength): Anchor[] {
  const { older, newer, olderHashes, newerHashes } = sides
  const places = new Map<number, Range>()
  const [there, here] = [new Map<number, number>(), new Map<number, number>()]
  for (const run of runsOf(gap.older, older, length)) {
    const hash = hashOf(olderHashes, run)
    there.set(hash, there.has(hash) ? TWICE : run.start)
    places.set(hash, run)
  }
  for (const run of runsOf(gap.newer, newer, length)) {
    const hash = hashOf(newerHashes, run)
    if ((there.get(hash) ?? TWICE) !== TWICE) here.set(hash, here.has(hash) ? TWICE : run.start)
  }
  const anchors: Anchor[] = []
  for (const [hash, to] of here) {
    const { start: from, end } = places.get(hash)!
    if (to !== TWICE && isSameRun(older, from, newer, to, end - from))
      anchors.push({ from, to, length: end - from, weight: weightOf(older, from, end) })
  }
  return anchors.sort((a, b) => a.from - b.from)
}

function* runsOf(range: Range, wording: Wording, length: RunLength): Generator<Range> {
  if (length === 'lines') yield* linesOf(range, wording)
  else
    for (let start = range.start; start + length <= range.end; start++) yield { start, end: start + length }
}

function* linesOf({ start, end }: Range, { breaks }: Wording): Generator<Range> {
  for (let first = start; first < end;) {
    let next = first + 1
    while (next < end && breaks[next] === breakBefore.none) next++
    yield { start: first, end: next }
    first = next
  }
}

function weightOf({ weights }: Wording, start: number, end: number): number {
  let sum = 0
  for (let i = start; i < end; i++) sum += weights[i]!
  return sum
}

/**
 * Of anchors sorted by their place in the older text, those in the same order in the newer one that weigh most together
 * (the heaviest increasing subsequence, by a tree of prefix maxima: P. Fenwick, 1994).
 */
export function inOrder(anchors: readonly Anchor[], newer: Range): Anchor[] {
  const size = newer.end - newer.start + 1
  const tree = new Int32Array(size + 1).fill(-1)
  const sums = new Float64Array(anchors.length)
  const before = new Int32Array(anchors.length)
  const sumOf = (i: number): number => (i < 0 ? 0 : sums[i]!)
  let best = -1
  anchors.forEach(({ to, weight }, i) => {
    const place = to - newer.start + 1
    let last = -1
    for (let at = place - 1; at > 0; at -= at & -at) if (sumOf(tree[at]!) > sumOf(last)) last = tree[at]!
    before[i] = last
    sums[i] = sumOf(last) + weight
    for (let at = place; at <= size; at += at & -at) if (sums[i] > sumOf(tree[at]!)) tree[at] = i
    if (sums[i] > sumOf(best)) best = i
  })
  const chain: Anchor[] = []
  for (let i = best; i >= 0; i = before[i]!) chain.push(anchors[i]!)
  return chain.reverse()
}
