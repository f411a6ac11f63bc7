/**
 * Ranks the documents of a lab for a query by BM25 (Robertson, Zaragoza: The Probabilistic Relevance Framework, 2009) in the
 * form of Lucene, whose inverse document frequency is never negative:
 *
 *     Σ over words of ln(1 + (N - n + ½) / (n + ½)) · w / (w + k1 · (1 - b + b · length / mean length))
 *
 * N documents, of which n hold the word; w is how often it stands in the document, each time as often as its field counts.
 * Where a word can be taken in several ways, the best counts. k1 and b are those of Anserini's published baselines.
 */
import { foundThings, type FoundThing } from '../document.ts'
import type { FindQuery } from '../query/query.ts'
import type { FindAnswer, FindHit, SearchOptions } from './answer.ts'
import { findAllowed, findWithdrawn } from './allowed.ts'
import { toAskedTerms } from './asked.ts'
import { allBits, hasBit, takeOut, type Bits } from './bits.ts'
import type { LabIndex, LiveSegment } from './lab-index.ts'
import { FACT, WITHDRAWN } from './segment.ts'
import { placesOf, type LabMeaning } from '../meaning/lab-meaning.ts'
import { maybePlaceOf, nearnessOf, type QueryPlace } from '../meaning/meaning.ts'
import { readTerm, type Reading, type ReadTerm } from './readings.ts'
import { toTaken } from './taken.ts'
import { BestHits, type Candidate } from './best-hits.ts'

const K1 = 0.9
const B = 0.4

/**
 * How much the meaning of a text adds to the share of the query's words that it has; chosen with the size of meaning on
 * descriptions of packages, see README.md. The program hands no meaning over, as requests do not rise by it.
 */
const MEANING_COUNTS = 0.1
/** What no longer stands is found behind what does, unless it fits much better: as a misspelt word it counts half. */
const WITHDRAWN_COUNTS = 0.5
/** Sums of so few numbers are less wrong than this. */
const ROUNDING = 1e-9
/** A text without any of the words is found where its meaning is so near, as a cosine. */
const NEAR_ENOUGH = 0.5

/**
 * Searches a lab. With meaning, a hit's score is the share that it has of what a text could get for the words, 0 to 1, and a
 * tenth of the cosine between the query's place and its own.
 *
 * @param meaning null for words alone; it has no part in an order by time
 */
export function search(
  index: LabIndex,
  query: FindQuery,
  options: SearchOptions,
  meaning: LabMeaning | null = null,
): FindAnswer {
  const asked = toAskedTerms(query)
  const terms = asked.map((term) => readTerm(index, term))
  const { withdrawn = false } = options
  const order = options.order ?? (asked.length > 0 ? 'best' : 'newest')
  const counts = new Map<FoundThing, number>()
  const fits = index.segments.flatMap((live, segment): Fitting[] => {
    const allowed = withdrawn ? findAllowed(live, query) : standing(live, findAllowed(live, query))
    if (asked.length === 0) return allowed === null ? [] : [{ segment, live, allowed, scores: null }]
    const scores = scoresIn(index, segment, terms)
    if (withdrawn) countWithdrawnLess(live, scores)
    return [{ segment, live, allowed, scores }]
  })
  const best = new BestHits(index.segments, options.limit, order)
  for (const fitting of fits) addFitting(fitting, best, counts)
  const place = meaning && order === 'best' ? maybePlaceOf(meaning.meaning, asked) : null
  const found = place ? withMeaning(index, fits, best, meaning!, place, mostOf(index, terms)) : best
  const hits = found.done().map((candidate) => toHit(index.segments[candidate.segment]!, candidate))
  return { hits, counts, taken: toTaken(query, asked, terms) }
}

/** Those that were not withdrawn, of some that fit. @param allowed null for all */
function standing({ segment, gone }: LiveSegment, allowed: Bits | null): Bits | null {
  if (segment.terms.find(FACT + WITHDRAWN) < 0) return allowed
  const left = allowed ?? allBits(segment.length)
  if (allowed === null && gone !== null) takeOut(left, gone)
  takeOut(left, findWithdrawn(segment))
  return left
}

function countWithdrawnLess({ segment }: LiveSegment, scores: Float64Array): void {
  if (segment.terms.find(FACT + WITHDRAWN) < 0) return
  const withdrawn = findWithdrawn(segment)
  for (let at = 0; at < scores.length; at++) if (hasBit(withdrawn, at)) scores[at]! *= WITHDRAWN_COUNTS
}

/** What fits in a segment. */
interface Fitting {
  readonly segment: number
  readonly live: LiveSegment
  /** null for all. */
  readonly allowed: Bits | null
  /** BM25, 0 for those without any of the words; null where none were asked for. */
  readonly scores: Float64Array | null
}

function addFitting(
  { segment, live, allowed, scores }: Fitting,
  into: BestHits,
  counts: Map<FoundThing, number>,
): void {
  const { length, things } = live.segment
  const byThing = new Uint32Array(foundThings.length)
  for (let document = 0; document < length; document++) {
    if (scores !== null && scores[document] === 0) continue
    if (allowed !== null && !hasBit(allowed, document)) continue
    byThing[things[document]!]!++
    into.add(segment, document, scores === null ? 0 : scores[document]!)
  }
  for (const [at, thing] of foundThings.entries())
    if (byThing[at]! > 0) counts.set(thing, (counts.get(thing) ?? 0) + byThing[at]!)
}

/**
 * Ranks again by words and meaning. What is too far behind by its words to come among the best, however near its meaning
 * is, is passed over; the result is that of looking at all.
 */
function withMeaning(
  { segments }: LabIndex,
  fits: readonly Fitting[],
  byWords: BestHits,
  meaning: LabMeaning,
  place: QueryPlace,
  most: number,
): BestHits {
  const best = new BestHits(segments, byWords.limit, 'best')
  const least = byWords.least / most - MEANING_COUNTS - ROUNDING
  for (const { segment, live, allowed, scores } of fits) {
    const { gone } = live
    const places = placesOf(meaning, live)
    for (let document = 0; document < live.segment.length; document++) {
      const share = scores![document]! / most
      if (share < least || (allowed !== null && !hasBit(allowed, document))) continue
      if (share === 0 && gone !== null && hasBit(gone, document)) continue
      const near = nearnessOf(place, places, document)
      if (share > 0) best.add(segment, document, share + MEANING_COUNTS * Math.max(0, near))
      else if (near >= NEAR_ENOUGH) best.add(segment, document, MEANING_COUNTS * near)
    }
  }
  return best
}

/** What a text could get for all the words at most: their inverse document frequencies. */
function mostOf(index: LabIndex, terms: readonly ReadTerm[]): number {
  const most = terms.reduce(
    (sum, { times, readings }) =>
      sum + times * Math.max(0, ...readings.map((reading) => reading.share * idfOf(index, reading))),
    0,
  )
  // Where no text has any of the words there is nothing to have a share of.
  return most === 0 ? 1 : most
}

function idfOf(index: LabIndex, { documents }: Reading): number {
  return Math.log(1 + (index.documents - documents + 0.5) / (documents + 0.5))
}

function toHit({ segment }: LiveSegment, { document, score }: Candidate): FindHit {
  const moment = segment.moments[document]!
  return {
    id: segment.ids.get(document),
    thing: foundThings[segment.things[document]!]!,
    score,
    moment: Number.isNaN(moment) ? null : moment,
  }
}

/** The scores of a segment's documents; 0 for those that hold none of the words. */
function scoresIn(index: LabIndex, segment: number, terms: readonly ReadTerm[]): Float64Array {
  const { weights, length } = index.segments[segment]!.segment
  const mean = index.weight / index.documents
  const scores = new Float64Array(length)
  const best = new Float64Array(length)
  for (const { times, readings } of terms) {
    const isOnly = readings.length === 1
    for (const reading of readings) {
      const idf = times * reading.share * idfOf(index, reading)
      const held = reading.holders[segment]!
      for (let at = 0; at < held.documents.length; at++) {
        const document = held.documents[at]!
        const weight = held.weights[at]!
        const score = (idf * weight) / (weight + K1 * (1 - B + (B * weights[document]!) / mean))
        if (isOnly) scores[document]! += score
        else if (score > best[document]!) best[document] = score
      }
    }
    if (!isOnly) addBest(best, readings, segment, scores)
  }
  return scores
}

function addBest(
  best: Float64Array,
  readings: ReadTerm['readings'],
  segment: number,
  scores: Float64Array,
): void {
  for (const { holders } of readings)
    for (const document of holders[segment]!.documents) {
      scores[document]! += best[document]!
      best[document] = 0
    }
}
