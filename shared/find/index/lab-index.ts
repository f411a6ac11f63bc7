/**
 * The index of a lab: a value made of segments. A changed document is gone from the segment that held it and stands in a new
 * one; merging puts small segments together. Whatever was done to it, it answers as one that was built anew: how many
 * documents there are and how long they are is counted in whole numbers, and how many hold a word is counted when asked.
 */
import type { FindDocument } from '../document.ts'
import { hasBit, noBits, setBit, type Bits } from './bits.ts'
import { buildSegment } from './build-segment.ts'
import { isHeld } from './gather.ts'
import { mergeSegments } from './merge-segments.ts'
import { Segment } from './segment.ts'

export interface LabIndex {
  readonly segments: readonly LiveSegment[]
  /** The name of the segment that is made next; names are never used again. */
  readonly nextName: number
  /** How many documents there are. */
  readonly documents: number
  /** The sum of their weights. */
  readonly weight: number
  /** The number of the last Change that it knows of; 0 for none. */
  readonly sequence: number
}

export interface LiveSegment {
  readonly name: number
  readonly segment: Segment
  /** Documents that are gone from it; null for none. */
  readonly gone: Bits | null
  /** How many are left, at least one. */
  readonly left: number
}

export const emptyIndex: LabIndex = { segments: [], nextName: 1, documents: 0, weight: 0, sequence: 0 }

export interface IndexChange {
  /** In the place of those with the same ids; each id once. */
  readonly documents: readonly FindDocument[]
  /** Ids of documents that go; those that are not there are passed over. */
  readonly removed: readonly string[]
  /** The last Change that this comes from. */
  readonly sequence: number
}

/** The index after a Change. Takes time by the texts of the documents alone; see {@link mergeNext} for the rest. */
export function withDocuments(index: LabIndex, { documents, removed, sequence }: IndexChange): LabIndex {
  const without = withoutIds(index, [...removed, ...documents.map(({ id }) => id)])
  if (documents.length === 0) return { ...without, sequence }
  const added = toLive(without.nextName, buildSegment(documents))
  return {
    segments: [...without.segments, added],
    nextName: without.nextName + 1,
    documents: without.documents + added.left,
    weight: without.weight + sumOf(added.segment.weights),
    sequence,
  }
}

/** The index knowing that Changes up to this one ask nothing more of it. */
export function upTo(index: LabIndex, sequence: number): LabIndex {
  return { ...index, sequence }
}

/** Segments of one size are put together as soon as there are so many; larger ones stay as they are. Bytes. */
const TIER_BYTES = [1 << 15, 1 << 18, 1 << 21, 1 << 23] as const
const TIER_SEGMENTS = 8
/** One of which this share is gone is written anew. */
const MOST_GONE = 0.3

/**
 * One step of tidying up: segments of one size become one, or a segment of which much is gone is written without it. Answers
 * nothing differently.
 *
 * @param mostBytes segments that are larger together are left for another time
 * @returns null where nothing is to be done
 */
export function mergeNext(index: LabIndex, mostBytes = Infinity): LabIndex | null {
  return atOnce(mergeInSteps(index, mostBytes))
}

/** The same in steps of a few milliseconds, so that a question between two of them is not held up. */
export function* mergeInSteps(index: LabIndex, mostBytes = Infinity): Generator<void, LabIndex | null> {
  const merged = toMerge(index, mostBytes)
  return merged && (yield* withMerged(index, merged))
}

function toMerge(index: LabIndex, mostBytes: number): readonly LiveSegment[] | null {
  const wasteful = index.segments.find(
    ({ segment, left, gone }) =>
      gone !== null && left < segment.length * (1 - MOST_GONE) && segment.bytes.length <= mostBytes,
  )
  if (wasteful) return [wasteful]
  for (const [at, most] of TIER_BYTES.entries()) {
    const least = at === 0 ? 0 : TIER_BYTES[at - 1]!
    const ofSize = index.segments.filter(
      ({ segment }) => segment.bytes.length > least && segment.bytes.length <= most,
    )
    const bytes = ofSize.reduce((sum, { segment }) => sum + segment.bytes.length, 0)
    if (ofSize.length >= TIER_SEGMENTS && bytes <= mostBytes) return ofSize
  }
  return null
}

function atOnce<T>(steps: Generator<void, T>): T {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** Says whether a form, folded, stands in the lab; `-name` and other options are forms. */
export function hasForm(index: LabIndex, form: string): boolean {
  return index.segments.some((live) => {
    const term = live.segment.terms.find(form)
    return term >= 0 && isHeld(live, term)
  })
}

/** Says whether words of documents that are gone still stand in the bytes. */
export function hasTraces(index: LabIndex): boolean {
  return index.segments.some(({ gone }) => gone !== null)
}

/**
 * One step of wiping: a segment is written anew without what is gone from it. To be taken after text was struck out, until
 * {@link hasTraces} says no; what was struck out may have stood in any former state of a document.
 */
export function wipeNext(index: LabIndex): LabIndex | null {
  const traced = index.segments.find(({ gone }) => gone !== null)
  return traced ? atOnce(withMerged(index, [traced])) : null
}

function* withMerged(index: LabIndex, merged: readonly LiveSegment[]): Generator<void, LabIndex> {
  const bytes = yield* mergeSegments(merged)
  const others = index.segments.filter((segment) => !merged.includes(segment))
  const segments = bytes === null ? others : [...others, toLive(index.nextName, bytes)]
  return { ...index, segments, nextName: index.nextName + 1 }
}

function toLive(name: number, bytes: Uint8Array): LiveSegment {
  const segment = new Segment(bytes)
  return { name, segment, gone: null, left: segment.length }
}

function withoutIds(index: LabIndex, ids: readonly string[]): LabIndex {
  let { documents, weight } = index
  const segments = index.segments.flatMap((live) => {
    const leaving = ids
      .map((id) => live.segment.ids.find(id))
      .filter((at) => at >= 0 && !(live.gone && hasBit(live.gone, at)))
    if (leaving.length === 0) return [live]
    const gone = live.gone?.slice() ?? noBits(live.segment.length)
    let { left } = live
    for (const at of leaving) {
      if (hasBit(gone, at)) continue
      setBit(gone, at)
      left--
      documents--
      weight -= live.segment.weights[at]!
    }
    return left === 0 ? [] : [{ ...live, gone, left }]
  })
  return { ...index, segments, documents, weight }
}

function sumOf(numbers: Uint32Array): number {
  return numbers.reduce((sum, number) => sum + number, 0)
}
