/**
 * What words mean, learnt from the lab itself: words that stand in the same documents, and words that stand with the same
 * words, lie near each other (latent semantic analysis: Deerwester, Dumais, Furnas, Landauer, Harshman, JASIS 41(6), 1990).
 * A text's place is the sum of its words'. Learnt anew from time to time, never changed.
 */
import type { LabIndex, LiveSegment } from '../index/lab-index.ts'
import type { AskedTerm } from '../index/asked.ts'
import { gather } from '../index/gather.ts'
import { findBasis } from './basis.ts'
import { toTermMatrix, type TermMatrix } from './term-matrix.ts'

/** How many numbers a place has: chosen on descriptions of packages, see shared/find/README.md. */
const SIZE = 32
/** So many documents, and words, there are at least for each number. */
const SHARE_A_DIRECTION = 8

export interface Meaning {
  /** Stems, sorted. */
  readonly words: readonly string[]
  /** Of each word its place, times how rare it is; SIZE numbers each. */
  readonly vectors: Float32Array
  /** The last Change that the index knew of when this was learnt. */
  readonly sequence: number
  /** How many documents there were then. */
  readonly documents: number
}

/** Learns from all that the index holds. Takes some seconds for a large lab. */
export function learnMeaning(index: LabIndex): Meaning {
  const matrix = toTermMatrix(index)
  const rarities = matrix.words.map((_, word) =>
    Math.log(matrix.documents / (matrix.starts[word + 1]! - matrix.starts[word]!)),
  )
  // With as many directions as documents or words, each of these would lie by itself.
  const most = Math.min(matrix.documents, matrix.words.length)
  const directions = Math.min(SIZE, Math.floor(most / SHARE_A_DIRECTION))
  const basis = findBasis(toWeighted(matrix, rarities), directions)
  const vectors = new Float32Array(rarities.length * SIZE)
  for (const [word, rarity] of rarities.entries())
    for (let of = 0; of < directions; of++)
      vectors[word * SIZE + of] = rarity * basis[word * directions + of]!
  return { words: matrix.words, vectors, sequence: index.sequence, documents: index.documents }
}

/** Says whether a value that was kept is a meaning of this size. */
export function isMeaning(value: unknown): value is Meaning {
  if (typeof value !== 'object' || value === null) return false
  const { words, vectors, sequence, documents } = value as Partial<Record<keyof Meaning, unknown>>
  return (
    Array.isArray(words) &&
    vectors instanceof Float32Array &&
    vectors.length === words.length * SIZE &&
    typeof sequence === 'number' &&
    typeof documents === 'number'
  )
}

/** So much of a lab is new, as a share, when its meaning is learnt again. */
const MUCH_NEW = 0.1

/** Says whether so much came or went since that learning again is worth its time. */
export function isOutgrown(meaning: Meaning, index: LabIndex, changedSince: number): boolean {
  return Math.max(changedSince, Math.abs(index.documents - meaning.documents)) > MUCH_NEW * meaning.documents
}

/** (1 + ln of how often) · rarity, each document as a vector of length 1. */
function toWeighted({ words, documents, starts, columns, counts }: TermMatrix, rarities: readonly number[]) {
  const weights = new Float32Array(counts.length)
  const squares = new Float64Array(documents)
  for (const [word, rarity] of rarities.entries())
    for (let cell = starts[word]!; cell < starts[word + 1]!; cell++) {
      weights[cell] = (1 + Math.log(counts[cell]!)) * rarity
      squares[columns[cell]!]! += weights[cell]! ** 2
    }
  for (let cell = 0; cell < weights.length; cell++) weights[cell]! /= Math.sqrt(squares[columns[cell]!]!)
  return { words: words.length, documents, starts, columns, weights }
}

/** The places of a segment's documents: SIZE numbers from -127 to 127 each; all 0 for one without words that mean anything. */
export type Places = Int8Array

/**
 * The places of all of a segment's documents. Its words come in order, so that a document's place does not depend on the
 * segment that holds it.
 */
export function placeSegment(meaning: Meaning, live: LiveSegment): Places {
  const { segment } = live
  const sums = new Float32Array(segment.length * SIZE)
  let word = 0
  for (const stem of segment.stems) {
    while (word < meaning.words.length && meaning.words[word]! < stem) word++
    if (meaning.words[word] !== stem) continue
    // Those that are gone are placed as well: they may have been here when this was last done.
    const { documents, weights } = gather({ ...live, gone: null }, segment.termsOfStem(stem))
    for (let at = 0; at < documents.length; at++) {
      const by = 1 + Math.log(weights[at]!)
      const start = documents[at]! * SIZE
      for (let of = 0; of < SIZE; of++) sums[start + of]! += by * meaning.vectors[word * SIZE + of]!
    }
  }
  return toPlaces(sums)
}

function toPlaces(sums: Float32Array): Places {
  const places = new Int8Array(sums.length)
  for (let start = 0; start < sums.length; start += SIZE) {
    let square = 0
    for (let of = 0; of < SIZE; of++) square += sums[start + of]! ** 2
    if (square === 0) continue
    const by = 127 / Math.sqrt(square)
    for (let of = 0; of < SIZE; of++) places[start + of] = Math.round(sums[start + of]! * by)
  }
  return places
}

/** The place of a query: whole numbers, which are quick to reckon with; its length is {@link PLACE_LENGTH}. */
export type QueryPlace = Int32Array

const PLACE_LENGTH = 1 << 14

/** The place of a query; null where none of its words means anything. */
export function maybePlaceOf(meaning: Meaning, terms: readonly AskedTerm[]): QueryPlace | null {
  const place = new Float64Array(SIZE)
  for (const { stem, times } of terms) {
    const word = stem === null ? -1 : findWord(meaning.words, stem)
    if (word < 0) continue
    for (let of = 0; of < SIZE; of++) place[of]! += times * meaning.vectors[word * SIZE + of]!
  }
  const length = Math.sqrt(place.reduce((sum, number) => sum + number * number, 0))
  return length === 0
    ? null
    : Int32Array.from(place, (number) => Math.round((number / length) * PLACE_LENGTH))
}

/** How near a document is to a query: the cosine, -1 to 1. */
export function nearnessOf(place: QueryPlace, places: Places, document: number): number {
  const start = document * SIZE
  let sum = 0
  for (let of = 0; of < SIZE; of += 4)
    sum +=
      Math.imul(place[of]!, places[start + of]!) +
      Math.imul(place[of + 1]!, places[start + of + 1]!) +
      Math.imul(place[of + 2]!, places[start + of + 2]!) +
      Math.imul(place[of + 3]!, places[start + of + 3]!)
  // Places are rounded, so that two of one direction may seem a little nearer than that.
  return Math.min(1, sum / (127 * PLACE_LENGTH))
}

function findWord(words: readonly string[], wanted: string): number {
  let [low, high] = [0, words.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (words[middle]! < wanted) low = middle + 1
    else high = middle
  }
  return words[low] === wanted ? low : -1
}
