/**
 * Finds a carried stretch again in a text that changed in ways unknown: imported, merged, an older revision.
 *
 * The stretch is known by its words, what stood before and behind it (W3C Web Annotation, TextQuoteSelector, §4.2.4),
 * and where it began (TextPositionSelector, §4.2.5), which is a hint and no more. The rule:
 *
 * 1. **Candidates.** All places of the exact words. Where none of them stands between all that stood around it, also
 *    windows of the text in which the like of the words stands: found by approximate matching of the words with their
 *    surroundings; of a long quote by runs of its words that still stand at the distances they had. Within a window the
 *    edges are told by laying the words beside it (edges.ts).
 * 2. **Score**, 0 to 1. The share of the quote that stands at the place, the likeness of up to 32 code units before and
 *    behind, and the nearness of the position, each weighted by how much it can tell: the quote by its length up to 64,
 *    the surroundings by theirs, the position as one code unit. Repetitions of one sign count once.
 * 3. **Certainty.** The best place is taken where its score is 0.7 or more and 0.6 or more of the quote stands there,
 *    and both edges are firm: at each, more than half of the quote's nearest words or of its surroundings stands.
 *    Words that stand exactly once are taken from 0.6 on, and at any score where they are long enough (20) not to stand
 *    there by chance. Words without a letter or digit are taken only between all that stood around them.
 * 4. **Rivals.** Where another place's score is within 0.08 of the best, all that is known of the surroundings, up to
 *    256 code units, has to tell them apart: by its standing whole around one alone, or by a likeness that is 0.1
 *    greater. If it stands whole around several, only the one at the very position counts. Otherwise there is no answer.
 *
 * Where the text is known from which the words were carried, both texts are laid side by side as wholes (alignment/), and
 * the place is where the stretch's words stand by that: of equal words the copy that was carried. It is taken where 0.4 or
 * more of the stretch stands there, its score together with its surroundings is 0.55 or more, and at both edges half of
 * the nearest words or of the surroundings stands; else, words long enough (20) that stand exactly once, where no other
 * words of the older text are now. Otherwise there is no answer; the rule above is only asked where the texts are too long
 * to be laid side by side wholly.
 *
 * The constants were set on one half of the texts of test/standards/reanchoring.test.ts and measured on the other.
 */
import type { Range, Selector } from '../lab/model.ts'
import type { TextAlignment } from './alignment/partners.ts'
import { carriedTo, isOfOthers, type CarriedTo } from './alignment/carriedTo.ts'
import { findStretch, type Stretch } from './reanchoring/edges.ts'
import { likenessAt, tellingLength, wholeContextLikeness, type Likeness } from './reanchoring/likeness.ts'
import { approximateWindows, exactPlaces } from './reanchoring/places.ts'
import { occurrencesOf, rangeOfSelector } from './selectors.ts'

export const LEAST_SCORE = 0.7
export const LEAST_SCORE_ONCE = 0.6
/** Telling code units from which words that stand exactly once are believed wherever they stand. */
export const LONG_ENOUGH = 20
export const LEAST_QUOTE = 0.6
export const LEAST_FIRMNESS = 0.6
export const LEAST_LEAD = 0.08
export const LEAST_CONTEXT_LEAD = 0.1
/** Telling code units of surroundings without which a position proves nothing. */
const LEAST_CONTEXT = 16
/** By the alignment with the text from which the words were carried. */
export const LEAST_SHARE_ALIGNED = 0.4
export const LEAST_SCORE_ALIGNED = 0.55
export const LEAST_FIRMNESS_ALIGNED = 0.5
/** Rivals that are looked at. */
const MOST_CANDIDATES = 8

export interface Reanchored {
  readonly range: Range
  /** 0 to 1. */
  readonly score: number
}

interface Candidate extends Reanchored, Likeness {
  /** Of the weaker edge: how much of the quote's nearest words, or of its surroundings there, stands. 0 to 1. */
  readonly firmness: number
}

/**
 * Where the stretch is now.
 * @param alignment of the text that the selector was made from with `text`, where it is known
 * @returns null where it cannot be told with enough certainty
 */
export function reanchor(
  text: string,
  selector: Selector,
  alignment: TextAlignment | null = null,
): Reanchored | null {
  if (!alignment) return findByQuote(text, selector)
  const carried = carriedTo(alignment, rangeOfSelector(selector))
  if (carried && isSure(carried))
    return { range: exactAcross(text, selector, carried.range), score: carried.score }
  return alignment.isComplete ? movedAlone(text, selector, alignment) : findByQuote(text, selector)
}

/** The exact words where they stand across a place: a sign at an edge may have been paired with another like it. */
function exactAcross(text: string, { quote: { exact } }: Selector, range: Range): Range {
  const from = Math.max(0, range.end - exact.length)
  const at = text.slice(from, range.start + exact.length).indexOf(exact)
  return at < 0 ? range : { start: from + at, end: from + at + exact.length }
}

/** Long words that stand exactly once, away from all that stood around them, and are no other words of the older text. */
function movedAlone(text: string, selector: Selector, alignment: TextAlignment): Reanchored | null {
  const { exact } = selector.quote
  const [range, another] = occurrencesOf(text, exact, 2)
  if (!range || another || tellingLength(exact) < LONG_ENOUGH) return null
  if (isOfOthers(alignment, range, rangeOfSelector(selector))) return null
  return { range, score: candidateAt(text, selector, wholeStretch(range)).score }
}

function isSure({ share, score, firmness }: CarriedTo): boolean {
  return share >= LEAST_SHARE_ALIGNED && score >= LEAST_SCORE_ALIGNED && firmness >= LEAST_FIRMNESS_ALIGNED
}

function findByQuote(text: string, selector: Selector): Reanchored | null {
  const exact = exactPlaces(text, selector)
  const standing = exact.map((range) => candidateAt(text, selector, wholeStretch(range)))
  const isWhole = (candidate: Candidate): boolean => isWholeAt(text, selector, candidate)
  const alike = standing.some(isWhole) ? [] : alikeCandidates(text, selector)
  const candidates = withoutOverlaps([...standing, ...alike].sort((a, b) => b.score - a.score))
  const best = candidates[0]
  if (!best || !isCertain(best, selector, exact.length === 1)) return null
  if (!/[\p{L}\p{N}]/u.test(selector.quote.exact) && !isWhole(best)) return null
  const rivals = candidates.filter(
    ({ score, quote }) => quote >= LEAST_QUOTE && best.score - score < LEAST_LEAD,
  )
  const chosen = rivals.length <= 1 ? best : tellApart(text, selector, rivals, isWhole)
  return chosen && { range: chosen.range, score: chosen.score }
}

function isCertain(best: Candidate, { quote }: Selector, standsOnce: boolean): boolean {
  if (standsOnce && best.quote === 1)
    return best.score >= LEAST_SCORE_ONCE || tellingLength(quote.exact) >= LONG_ENOUGH
  return best.score >= LEAST_SCORE && best.quote >= LEAST_QUOTE && best.firmness >= LEAST_FIRMNESS
}

/** The one of several like places that all surroundings speak for; null where they do not. */
function tellApart(
  text: string,
  selector: Selector,
  rivals: readonly Candidate[],
  isWhole: (candidate: Candidate) => boolean,
): Candidate | null {
  const whole = rivals.filter(isWhole)
  if (whole.length === 1) return whole[0]!
  const { prefix, suffix } = selector.quote
  if (whole.length > 1)
    return tellingLength(prefix) + tellingLength(suffix) >= LEAST_CONTEXT
      ? (whole.find(({ range }) => range.start === selector.position.start) ?? null)
      : null
  const [first, second] = rivals
    .map((rival) => ({ rival, likeness: wholeContextLikeness(text, selector, rival.range) }))
    .sort((a, b) => b.likeness - a.likeness)
  return first!.likeness - second!.likeness >= LEAST_CONTEXT_LEAD ? first!.rival : null
}

/** The exact words between all that is known to have stood around them. */
function isWholeAt(text: string, selector: Selector, { quote, range }: Candidate): boolean {
  return quote === 1 && wholeContextLikeness(text, selector, range) === 1
}

function alikeCandidates(text: string, selector: Selector): Candidate[] {
  return approximateWindows(text, selector).flatMap((window) => {
    const stretch = findStretch(text, selector, window)
    return stretch ? [candidateAt(text, selector, stretch)] : []
  })
}

const wholeStretch = (range: Range): Stretch => ({ range, share: 1, startShare: 1, endShare: 1 })

function candidateAt(text: string, selector: Selector, stretch: Stretch): Candidate {
  const likeness = likenessAt(text, selector, stretch.range, stretch.share)
  const atStart = Math.max(stretch.startShare, likeness.before)
  const atEnd = Math.max(stretch.endShare, likeness.behind)
  return { range: stretch.range, ...likeness, firmness: Math.min(atStart, atEnd) }
}

/** The best first; of places that overlap, the better one. */
function withoutOverlaps(candidates: readonly Candidate[]): Candidate[] {
  const kept: Candidate[] = []
  for (const candidate of candidates) {
    if (kept.length === MOST_CANDIDATES) break
    const { start, end } = candidate.range
    if (!kept.some(({ range }) => range.start < end && start < range.end)) kept.push(candidate)
  }
  return kept
}
