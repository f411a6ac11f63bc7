/**
 * Where a fragment of the older text is in the newer one, by two algorithms of different authors that have to agree:
 * Myers' shortest edit script over words, blanks and signs (npm `@jest/diff-sequences`), and first over lines, then over characters with
 * what stands by chance taken out (npm `diff-match-patch`, "semantic clean-up").
 */
import diffSequences from '@jest/diff-sequences'
import DiffMatchPatch from 'diff-match-patch'
import type { Range } from '../../../shared/lab/model.ts'
import { occurrencesOf } from '../../../shared/provenance/selectors.ts'
import type { TextPair } from './texts.ts'

/** For each code unit of the older text its place in the newer one, −1 where it did not survive. */
export type PlaceMap = Int32Array

export interface Truth {
  /** The surviving code units from first to last, in the newer text. */
  readonly place: Range
  /**
   * The same with what took the place of code units that the fragment lost at its start and at its end: up to where its
   * surroundings go on. The same as `place` at an edge that lost none.
   */
  readonly widest: Range
}
export type Verdict =
  | { readonly kind: 'there'; readonly truth: Truth }
  /** Both say that it is gone: nothing is to be found. */
  | { readonly kind: 'gone' }
  /** They do not agree, or it is torn apart, half gone, or stands elsewhere, moved. */
  | { readonly kind: 'unsettled' }

/** Of a fragment that exists still, so much survived at least; of one that is gone, less than the other. */
const LEAST_THERE = 0.5
const MOST_GONE = 0.2
/** What took the place of what was lost at an edge counts as its successor up to so many code units. */
const MOST_SUCCEEDING = 64
/** So many letters and digits in a row, standing elsewhere, say that words were moved rather than taken away. */
const MOVED_RUN = 16

export type PlaceMaps = readonly [PlaceMap, PlaceMap]

export function placeMapsOf({ older, newer }: TextPair): PlaceMaps {
  return [mapByWords(older, newer), mapByLines(older, newer)]
}

function mapByWords(older: string, newer: string): PlaceMap {
  const ids = new Map<string, number>()
  const [from, to] = [tokensOf(older, ids), tokensOf(newer, ids)]
  const map = new Int32Array(older.length).fill(-1)
  diffSequences(
    from.ids.length,
    to.ids.length,
    (a, b) => from.ids[a] === to.ids[b],
    (count, a, b) => {
      const [start, end] = [from.starts[a]!, from.starts[a + count]!]
      for (let at = start; at < end; at++) map[at] = to.starts[b]! + at - start
    },
  )
  return map
}

/** Words, line ends, blanks, and signs one by one: a number for each wording, and where each begins, and where the last ends. */
function tokensOf(text: string, known: Map<string, number>): { ids: Int32Array; starts: Int32Array } {
  const found = [...text.matchAll(/[\p{L}\p{N}]+|\n|[^\S\n]+|[^\p{L}\p{N}\s]/gu)]
  const ids = Int32Array.from(found, ([words]) => {
    const id = known.get(words) ?? known.size
    known.set(words, id)
    return id
  })
  return { ids, starts: Int32Array.from([...found.map(({ index }) => index), text.length]) }
}

function mapByLines(older: string, newer: string): PlaceMap {
  const differ = new DiffMatchPatch()
  differ.Diff_Timeout = 0
  const parts = differ.diff_main(older, newer, true)
  differ.diff_cleanupSemantic(parts)
  return mapOf(
    older.length,
    parts.map(([side, words]) => [side, words.length] as const),
  )
}

function mapOf(length: number, parts: readonly (readonly [number, number])[]): PlaceMap {
  const map = new Int32Array(length).fill(-1)
  let [from, to] = [0, 0]
  for (const [side, count] of parts) {
    if (side === 0) for (let i = 0; i < count; i++) map[from + i] = to + i
    if (side <= 0) from += count
    if (side >= 0) to += count
  }
  return map
}

export function verdictOn(fragment: Range, pair: TextPair, maps: PlaceMaps): Verdict {
  const found = maps.map((map) => survivors(fragment, pair.older, map))
  if (found.every(({ share }) => share < MOST_GONE))
    return isMoved(fragment, pair) ? { kind: 'unsettled' } : { kind: 'gone' }
  if (!found.every(({ share, isOneStretch }) => share >= LEAST_THERE && isOneStretch))
    return { kind: 'unsettled' }
  const [a, b] = found as [Survivors, Survivors]
  const isAgreed =
    isWithinWord(pair.newer, a.place.start, b.place.start) &&
    isWithinWord(pair.newer, a.place.end, b.place.end)
  if (!isAgreed) return { kind: 'unsettled' }
  return { kind: 'there', truth: { place: around(a.place, b.place), widest: around(a.widest, b.widest) } }
}

const around = (a: Range, b: Range): Range => ({
  start: Math.min(a.start, b.start),
  end: Math.max(a.end, b.end),
})

interface Survivors extends Truth {
  /** Of the code units that are no white space, 0 to 1. */
  readonly share: number
  readonly isOneStretch: boolean
}

function survivors({ start, end }: Range, older: string, map: PlaceMap): Survivors {
  const solid = solidIn(older, start, end)
  const alive = solid.filter((i) => map[i]! >= 0)
  const [first, last] = [alive[0] ?? start, alive.at(-1) ?? end - 1]
  const place = { start: Math.max(0, map[first]!), end: map[last]! + 1 }
  const widest = {
    start:
      first === solid[0]
        ? place.start - (first - start)
        : Math.max(placeBefore(map, start), place.start - MOST_SUCCEEDING),
    end:
      last === solid.at(-1)
        ? place.end + (end - 1 - last)
        : Math.min(placeBehind(map, end), place.end + MOST_SUCCEEDING),
  }
  return {
    place,
    widest,
    share: alive.length / Math.max(solid.length, 1),
    isOneStretch: place.end - place.start <= 2 * (end - start) + 40,
  }
}

function solidIn(text: string, start: number, end: number): number[] {
  const solid: number[] = []
  for (let i = start; i < end; i++) if (/\S/u.test(text[i]!)) solid.push(i)
  return solid
}

/** Behind the nearest surviving code unit before `start`, in the newer text. */
function placeBefore(map: PlaceMap, start: number): number {
  for (let i = start - 1; i >= 0; i--) if (map[i]! >= 0) return map[i]! + 1
  return 0
}

/** At the nearest surviving code unit from `end` on, in the newer text. */
function placeBehind(map: PlaceMap, end: number): number {
  for (let i = end; i < map.length; i++) if (map[i]! >= 0) return map[i]!
  return Infinity
}

/** Whether not more than one word stands between two places. */
function isWithinWord(text: string, a: number, b: number): boolean {
  const between = text.slice(Math.min(a, b), Math.max(a, b)).trim()
  return !/\s/u.test(between)
}

/**
 * Whether the newer text holds some run of the fragment as often as the older one, signs and blanks aside: then it was
 * moved rather than taken away, which algorithms that keep the order cannot see. A run of a short fragment has what
 * stands around it.
 */
function isMoved({ start, end }: Range, pair: TextPair): boolean {
  const [older, newer] = [lettersOf(pair.older), lettersOf(pair.newer)]
  const first = lettersOf(pair.older.slice(0, start)).length
  const last = lettersOf(pair.older.slice(0, end)).length
  const from = Math.max(0, Math.min(first, last - MOVED_RUN))
  const to = Math.max(last, first + MOVED_RUN)
  for (let at = from; at + MOVED_RUN <= to; at += 2) {
    const run = older.slice(at, at + MOVED_RUN)
    const standing = occurrencesOf(newer, run).length
    if (standing > 0 && standing >= occurrencesOf(older, run).length) return true
  }
  return false
}

const lettersOf = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, '')
