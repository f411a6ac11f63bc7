/** Where in a text a carried stretch might stand: exact places, and windows in which the like of it stands. */
import search from 'approx-string-match'
import type { Range, Selector } from '../../lab/model.ts'
import { occurrencesOf } from '../selectors.ts'
import { nearContext } from './likeness.ts'

/** Of more exact places than this, those whose surroundings fit best. */
const MOST_EXACT = 40
const MOST_LOOKED_AT = 20_000

/** Up to this length a stretch is looked for with its surroundings as a whole; a longer one by what of it stands. */
const SHORT = 256
/** Errors allowed: of the stretch with its surroundings, and of the stretch alone, as shares of the length. */
const ERRORS_WITH_CONTEXT = 0.5
const ERRORS_ALONE = 0.4
/** A shorter stretch is not looked for without its surroundings. */
const LEAST_ALONE = 24
/** Matches with the same number of errors that are looked at. */
const MOST_MATCHES = 4

/** Places of the exact words. */
export function exactPlaces(text: string, selector: Selector): Range[] {
  const { exact, prefix, suffix } = selector.quote
  const places = occurrencesOf(text, exact, MOST_LOOKED_AT)
  if (places.length <= MOST_EXACT) return places
  return places
    .map((place) => ({
      place,
      fits: commonBefore(text, prefix, place.start) + commonBehind(text, suffix, place.end),
      distance: Math.abs(place.start - selector.position.start),
    }))
    .sort((a, b) => b.fits - a.fits || a.distance - b.distance)
    .slice(0, MOST_EXACT)
    .map(({ place }) => place)
}

function commonBefore(text: string, prefix: string, start: number): number {
  let count = 0
  while (count < prefix.length && text[start - 1 - count] === prefix[prefix.length - 1 - count]) count++
  return count
}

function commonBehind(text: string, suffix: string, end: number): number {
  let count = 0
  while (count < suffix.length && text[end + count] === suffix[count]) count++
  return count
}

/** Windows in which the words stand more or less, at least two where there are. */
export function approximateWindows(text: string, selector: Selector): Range[] {
  const { exact } = selector.quote
  const { prefix, suffix } = nearContext(selector)
  const whole = prefix + exact + suffix
  if (whole.length > SHORT) return seededWindows(text, exact)
  return [
    ...bestAndNext(text, whole, ERRORS_WITH_CONTEXT),
    ...(exact.length >= LEAST_ALONE ? bestAndNext(text, exact, ERRORS_ALONE) : []),
  ]
}

/** The library gives the matches with the fewest errors alone; a rival is found once these are masked. */
function bestAndNext(text: string, pattern: string, errors: number): Range[] {
  const most = Math.floor(pattern.length * errors)
  const best = search(text, pattern, most).slice(0, MOST_MATCHES)
  const masked = best.reduce(
    (left, { start, end }) => left.slice(0, start) + '\u0000'.repeat(end - start) + left.slice(end),
    text,
  )
  const next = best.length === 0 ? [] : search(masked, pattern, most).slice(0, MOST_MATCHES)
  return [...best, ...next].map(({ start, end }) => ({ start, end }))
}

/** Seeds that stand more often than this say nothing. */
const MOST_SEED_PLACES = 30
/** Seeds of one window may have moved against each other by so much: at least, and as a share of the quote. */
const SPREAD = 120
const SPREAD_SHARE = 0.6
const MOST_WINDOWS = 3
/** Of the quote's length, so much must speak for a window. */
const LEAST_SUPPORT = 0.1

interface Cluster {
  /** Where the quote would start, by the first and by the last of its seeds. */
  readonly from: number
  readonly to: number
  readonly support: number
}

/**
 * For long quotes, where comparing the whole with every place would be slow: runs of words of the quote are looked for
 * one by one, and windows are where many of them stand at the distances that they have in the quote.
 */
function seededWindows(text: string, exact: string): Range[] {
  const votes = seedsOf(exact)
    .flatMap(({ at, words }) => {
      const places = occurrencesOf(text, words, MOST_SEED_PLACES)
      if (places.length === MOST_SEED_PLACES) return []
      return places.map(({ start }) => ({ start: start - at, support: words.length / places.length }))
    })
    .sort((a, b) => a.start - b.start)
  const spread = Math.max(SPREAD, exact.length * SPREAD_SHARE)
  return bestClusters(clustersOf(votes, spread), spread, exact.length * LEAST_SUPPORT).map(
    ({ from, to }) => ({
      start: Math.max(0, from),
      end: Math.min(text.length, to + exact.length),
    }),
  )
}

/** Runs of words of about ten to twenty code units, one behind the other. */
function seedsOf(exact: string): { readonly at: number; readonly words: string }[] {
  const found = exact.matchAll(/\S[^]{10,22}?(?=\s|$)|\S{6,22}/gu)
  return [...found].map(({ index, 0: words }) => ({ at: index, words }))
}

/** For each vote as the last one, all votes not further before it than the spread. */
function clustersOf(
  votes: readonly { readonly start: number; readonly support: number }[],
  spread: number,
): Cluster[] {
  let [first, support] = [0, 0]
  return votes.map((vote) => {
    support += vote.support
    while (vote.start - votes[first]!.start > spread) support -= votes[first++]!.support
    return { from: votes[first]!.start, to: vote.start, support }
  })
}

function bestClusters(clusters: readonly Cluster[], spread: number, least: number): Cluster[] {
  const chosen: Cluster[] = []
  for (const cluster of [...clusters].sort((a, b) => b.support - a.support)) {
    if (chosen.length === MOST_WINDOWS || cluster.support < least) break
    if (!chosen.some(({ from, to }) => cluster.from < to + spread && from - spread < cluster.to))
      chosen.push(cluster)
  }
  return chosen
}
