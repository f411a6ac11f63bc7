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
import { findAllowed } from './allowed.ts'
import { toAskedTerms } from './asked.ts'
import { hasBit } from './bits.ts'
import type { LabIndex, LiveSegment } from './lab-index.ts'
import { readTerm, type ReadTerm } from './readings.ts'
import { toTaken } from './taken.ts'
import { BestHits, type Candidate } from './best-hits.ts'

const K1 = 0.9
const B = 0.4

/** @param limit of the options: at least 0; counts and words are told of all that fit */
export function search(index: LabIndex, query: FindQuery, options: SearchOptions): FindAnswer {
  const asked = toAskedTerms(query)
  const terms = asked.map((term) => readTerm(index, term))
  const best = new BestHits(
    index.segments,
    options.limit,
    options.order ?? (asked.length > 0 ? 'best' : 'newest'),
  )
  const counts = new Map<FoundThing, number>()
  for (const [at, live] of index.segments.entries()) {
    const allowed = findAllowed(live, query)
    if (asked.length === 0 && allowed === null) continue
    const scores = asked.length > 0 ? scoresIn(index, at, terms) : null
    for (let document = 0; document < live.segment.length; document++) {
      if (scores !== null && scores[document] === 0) continue
      if (allowed !== null && !hasBit(allowed, document)) continue
      const thing = foundThings[live.segment.things[document]!]!
      counts.set(thing, (counts.get(thing) ?? 0) + 1)
      best.add({ segment: at, document, score: scores?.[document] ?? 0 })
    }
  }
  const hits = best.done().map((candidate) => toHit(index.segments[candidate.segment]!, candidate))
  return { hits, counts, taken: toTaken(query, asked, terms) }
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
    for (const { share, documents, holders } of readings) {
      const idf = times * share * Math.log(1 + (index.documents - documents + 0.5) / (documents + 0.5))
      const held = holders[segment]!
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
