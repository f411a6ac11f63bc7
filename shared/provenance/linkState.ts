/**
 * What is true of a link now. One pure function of the link and its two texts; live mapping and rebuilding both run it,
 * so that a rebuild gives the same table.
 *
 * An end's characters are known by identity (pieces.ts). Where they are left, the end's place is the stretch from the
 * first to the last of them, widened or moved to the exact words where those stand across it (a word deleted and typed
 * again). Where none is left, the words are looked for by quote. Where they cannot be found without doubt, the end is
 * loose.
 */
import type { EndState, Link, LinkEnd, LinkState, LinkType, Piece, Range, Selector } from '../lab/model.ts'
import { hullOf, locatePieces } from './pieces.ts'
import { findQuote, occurrencesOf, wordsOf } from './selectors.ts'
import { shareOfWords } from './words.ts'

/** A text as it stands now, or null where its node is gone. */
export type PresentText = { readonly text: string; readonly pieces: readonly Piece[] } | null

/**
 * Where one end is now.
 * @param pieces for each range of the end, the identities of the characters that it held when it was carried
 */
export function deriveEnd(
  end: LinkEnd,
  pieces: readonly (readonly Piece[])[],
  present: PresentText,
): EndState {
  const places = end.ranges.map((selector, i) =>
    present ? placeOf(selector, pieces[i] ?? [], present) : null,
  )
  const loose = end.ranges.length > 0 && places.every((place) => place === null)
  return { node: end.node.id, pieces, places, loose }
}

/** Derives a link's state from its two ends and the newer one's text as they are now. */
export function deriveLinkState(link: Link, newer: EndState, older: EndState, newerText: string): LinkState {
  const carried = link.older.ranges.map((range) => range.quote.exact).join('\n')
  const standing = textAtPlaces(newer.places, newerText)
  return {
    link: link.id,
    type: typeOf(link, carried, standing),
    kept: link.newer.ranges.length === 0 ? 1 : shareOfWords(carried, standing),
    newer,
    older,
    loose: newer.loose || older.loose,
  }
}

function placeOf(
  selector: Selector,
  wanted: readonly Piece[],
  present: NonNullable<PresentText>,
): Range | null {
  const hull = hullOf(locatePieces(present.pieces, wanted))
  if (!hull) return findQuote(present.text, selector)
  const { exact } = selector.quote
  if (present.text.slice(hull.start, hull.end) === exact) return hull
  return exactAcross(present.text, exact, hull) ?? hull
}

/** The exact words where they stand across the stretch, nearest to its start. */
function exactAcross(text: string, exact: string, hull: Range): Range | null {
  const from = Math.max(0, hull.start - exact.length)
  const near = occurrencesOf(text.slice(from, hull.end + exact.length), exact)
    .map((place) => ({ start: place.start + from, end: place.end + from }))
    .filter((place) => place.start < hull.end && hull.start < place.end)
  const distance = (place: Range): number => Math.abs(place.start - hull.start)
  return near.reduce<Range | null>(
    (best, place) => (best === null || distance(place) < distance(best) ? place : best),
    null,
  )
}

function textAtPlaces(places: readonly (Range | null)[], text: string): string {
  return places.flatMap((place) => (place ? [text.slice(place.start, place.end)] : [])).join('\n')
}

function typeOf(link: Link, carried: string, standing: string): LinkType {
  if (link.newer.ranges.length > 0 && link.older.ranges.length > 0)
    return isSameWords(carried, standing) ? 'quotes' : 'derives'
  return typeOfWholes(link)
}

function isSameWords(a: string, b: string): boolean {
  if (a === b) return true
  const [wordsA, wordsB] = [wordsOf(a), wordsOf(b)]
  return wordsA.length === wordsB.length && wordsA.every((word, i) => word === wordsB[i])
}

/** Links that carry no words say what they are by what they join. */
function typeOfWholes({ newer, older }: Link): LinkType {
  if (newer.node.kind === 'entry' && older.node.kind === 'entry') return 'answers'
  if (newer.node.kind === older.node.kind) return 'revises'
  return 'cites'
}
