/** How an asked term is taken: the word itself, longer words that begin so, words it may be a misspelling of. */
import type { AskedTerm } from './asked.ts'
import { maybeStem } from './fold.ts'
import { gather, isHeld, type Holders } from './gather.ts'
import type { LabIndex, LiveSegment } from './lab-index.ts'
import { findNearWords } from './near-words.ts'

/** One way to take a term. */
export interface Reading {
  /** What a document that holds it this way gets of a word's score: 1 for the word itself. */
  readonly share: number
  /** One for each segment. */
  readonly holders: readonly Holders[]
  /** How many documents hold it this way, in all segments. */
  readonly documents: number
}

export interface ReadTerm {
  readonly times: number
  readonly readings: readonly Reading[]
  /** Right spellings of what may be a misspelling; sorted. */
  readonly respelt: readonly string[]
}

const BEGINNING_SHARE = 0.8
const MISSPELT_SHARE = 0.5

export function readTerm(index: LabIndex, term: AskedTerm): ReadTerm {
  const readings = [toReading(index, 1, ({ segment }) => termsLike(segment, term.form, term.stem))]
  if (term.isBeginning) readings.push(toReading(index, BEGINNING_SHARE, (live) => termsFrom(live, term.form)))
  let respelt: string[] = []
  // A word that stands in the lab is a word, however rare.
  if (term.mostWrong > 0 && readings.every(({ documents }) => documents === 0)) {
    respelt = findRespelt(index, term)
    const reading = toReading(index, MISSPELT_SHARE, ({ segment }) => [
      ...new Set(respelt.flatMap((form) => termsLike(segment, form, maybeStem(form)))),
    ])
    readings.push(reading)
  }
  return { times: term.times, respelt, readings: readings.filter(({ documents }) => documents > 0) }
}

function toReading(index: LabIndex, share: number, termsOf: (live: LiveSegment) => number[]): Reading {
  const holders = index.segments.map((live) => gather(live, termsOf(live)))
  return { share, holders, documents: holders.reduce((sum, { documents }) => sum + documents.length, 0) }
}

/** The form and all words of its stem. */
function termsLike(segment: LiveSegment['segment'], form: string, stem: string | null): number[] {
  // A word of letters is always among the words of its own stem.
  if (stem !== null) return [...segment.termsOfStem(stem)]
  const at = segment.terms.find(form)
  return at < 0 ? [] : [at]
}

function termsFrom({ segment }: LiveSegment, beginning: string): number[] {
  const [start, end] = segment.terms.range(beginning)
  return Array.from({ length: end - start }, (_, at) => start + at)
}

/** Words of the lab that are nearest to the term, all at one distance. */
function findRespelt(index: LabIndex, { form, mostWrong, isBeginning }: AskedTerm): string[] {
  const near = new Map<string, number>()
  for (const live of index.segments)
    for (const { at, distance } of findNearWords(live.segment.terms, form, mostWrong, isBeginning))
      if (isHeld(live, at)) near.set(live.segment.terms.get(at), distance)
  const nearest = Math.min(...near.values())
  return [...near].flatMap(([word, distance]) => (distance === nearest ? [word] : [])).sort()
}
