/**
 * What is true of a link now. One pure function of the link and its two texts; live mapping and rebuilding both run it,
 * so that a rebuild gives the same table.
 *
 * An end's characters are known by identity (pieces.ts). Where they are left, the end's place is the stretch from the
 * first to the last of them, widened or moved to the exact words where those stand across it (a word deleted and typed
 * again). Where none is left, the words are looked for (reanchor.ts): by laying the text from which they were carried beside
 * the present one where that text is known, else by quote; and the end has the score of what was found. Where they cannot be found with enough certainty, the end is loose.
 */
import type { EndState, Link, LinkEnd, LinkState, LinkType, Piece, Range, Selector } from '../lab/model.ts'
import { toFilledRange, toSourceRange } from '../procedure/values/placeholders.ts'
import { isSameWords, type CarriedView } from './carriedView.ts'
import type { OlderText } from './alignment/olderText.ts'
import { hullOf, locatePieces } from './pieces.ts'
import { reanchor, type Reanchored } from './reanchor.ts'
import { isSelectorTrue, occurrencesOf } from './selectors.ts'
import { shareOfWords } from './words.ts'

/** A text as it stands now, or null where its node is gone. */
export type PresentText = {
  readonly text: string
  readonly pieces: readonly Piece[]
  /** With the carried values in the placeholders' places; null or absent for a text without placeholders. */
  readonly view?: CarriedView | null
} | null

/**
 * Whether of some range of an end no carried character is left in the text: then it has to be looked for, which is surer
 * with the text at hand that it was carried from.
 * @param pieces for each range of the end, the identities of the characters that it held when it was carried
 */
export function isAstray(pieces: readonly (readonly Piece[])[], present: PresentText): boolean {
  return present !== null && pieces.some((wanted) => locatePieces(present.pieces, wanted).length === 0)
}

/**
 * Where one end is now.
 * @param pieces for each range of the end, the identities of the characters that it held when it was carried
 * @param older the text that the end's selectors speak of, as it stood then; null where it is not known. It counts only
 * where the end is astray
 */
export function deriveEnd(
  end: LinkEnd,
  pieces: readonly (readonly Piece[])[],
  present: PresentText,
  older: OlderText | null = null,
): EndState {
  const found = end.ranges.map((selector, i) =>
    present ? placeOf(selector, pieces[i] ?? [], present, older) : null,
  )
  const places = found.map((place) => place && place.range)
  const loose = end.ranges.length > 0 && places.every((place) => place === null)
  const scores = found.flatMap((place) => (place?.score === undefined ? [] : [place.score]))
  const score = scores.length > 0 ? { score: Math.min(...scores) } : {}
  return { node: end.node.id, pieces, places, loose, ...score }
}

/** Without a score where characters tell it. */
type FoundPlace = { readonly range: Range; readonly score?: number }

/** Derives a link's state from its two ends and the newer one's text as they are now. */
export function deriveLinkState(
  link: Link,
  newer: EndState,
  older: EndState,
  newerText: Pick<NonNullable<PresentText>, 'text' | 'view'> | null,
): LinkState {
  const carried = recordedWords(link.older)
  const { isWhole, kept } = compare(carried, newer.places, newerText)
  return {
    link: link.id,
    type: typeOf(link, isWhole),
    kept: link.newer.ranges.length === 0 ? 1 : kept,
    newer,
    older,
    loose: newer.loose || older.loose,
  }
}

/** The words are compared as they stand, and with the carried values in the placeholders' places; the better one counts. */
function compare(
  carried: string,
  places: readonly (Range | null)[],
  present: Pick<NonNullable<PresentText>, 'text' | 'view'> | null,
): { readonly isWhole: boolean; readonly kept: number } {
  const view = present?.view
  const plain = textAtPlaces(places, present?.text ?? '')
  if (!view) return { isWhole: isSameWords(carried, plain), kept: shareOfWords(carried, plain) }
  const filledPlaces = places.map((place) => place && toFilledRange(view.filled, place))
  const filled = textAtPlaces(filledPlaces, view.filled.text)
  const isWhole = isSameWords(carried, plain) || isSameWords(carried, filled, view.open)
  return {
    isWhole,
    kept: isWhole ? 1 : Math.max(shareOfWords(carried, plain), shareOfWords(carried, filled)),
  }
}

function placeOf(
  selector: Selector,
  wanted: readonly Piece[],
  present: NonNullable<PresentText>,
  older: OlderText | null,
): FoundPlace | null {
  const left = locatePieces(present.pieces, wanted)
  const hull = hullOf(left)
  return hull ? { range: widened(hull, left, selector, present) } : foundAgain(selector, present, older)
}

/** The stretch of what is left, or the exact words where these stand across it and hold some of that. */
function widened(
  hull: Range,
  left: readonly Range[],
  { quote }: Selector,
  { text, view }: NonNullable<PresentText>,
): Range {
  const { exact } = quote
  if (text.slice(hull.start, hull.end) === exact) return hull
  const across = exactAcross(text, exact, hull, left)
  if (across || !view) return across ?? hull
  const filled = exactAcross(
    view.filled.text,
    exact,
    toFilledRange(view.filled, hull),
    left.map((range) => toFilledRange(view.filled, range)),
  )
  if (filled) return toSourceRange(view.filled, filled)
  return withOpenEdges(text, view, exact, withKnownEdges(view, exact, hull))
}

/** The words as they stand or with the carried values in the placeholders' places, whichever is found with the higher score. */
function foundAgain(
  selector: Selector,
  { text, view }: NonNullable<PresentText>,
  older: OlderText | null,
): FoundPlace | null {
  const known = older && isSelectorTrue(older.text, selector) ? older : null
  const find = (now: string): Reanchored | null => reanchor(now, selector, known && known.alignTo(now))
  const plain = find(text)
  if (!view) return plain
  const filled = find(view.filled.text)
  if (filled && !(plain && plain.score >= filled.score))
    return { range: toSourceRange(view.filled, filled.range), score: filled.score }
  const open = plain ?? onlyOpen(text, view)
  return open && ('range' in open ? open : { range: open })
}

/** The one placeholder whose value is kept nowhere: what was carried may have been that value alone. */
function onlyOpen(text: string, { open }: CarriedView): Range | null {
  const places = open.flatMap((placeholder) => occurrencesOf(text, placeholder))
  return places.length === 1 ? places[0]! : null
}

/** The stretch with a placeholder at either edge, where the words began or ended with the value that stood there. */
function withKnownEdges({ filled }: CarriedView, exact: string, hull: Range): Range {
  const placeholders = filled.pieces.filter(({ kind }) => kind === 'placeholder')
  const valueOf = ({ start, end }: Range): string => filled.text.slice(start, end)
  const before = placeholders.find(
    (piece) => piece.source.end === hull.start && exact.startsWith(valueOf(piece.filled)),
  )
  const behind = placeholders.find(
    (piece) => piece.source.start === hull.end && exact.endsWith(valueOf(piece.filled)),
  )
  return { start: before?.source.start ?? hull.start, end: behind?.source.end ?? hull.end }
}

/** The stretch with a placeholder at its edges, where together they are the words; else the stretch itself. */
function withOpenEdges(text: string, { open, filled }: CarriedView, exact: string, hull: Range): Range {
  const starts = open.filter((placeholder) => text.slice(0, hull.start).endsWith(placeholder))
  const ends = open.filter((placeholder) => text.slice(hull.end).startsWith(placeholder))
  for (const before of ['', ...starts])
    for (const behind of ['', ...ends]) {
      const range = { start: hull.start - before.length, end: hull.end + behind.length }
      const { start, end } = toFilledRange(filled, range)
      if (isSameWords(exact, filled.text.slice(start, end), open)) return range
    }
  return hull
}

/** The exact words where they stand across the stretch, nearest to its start. */
function exactAcross(text: string, exact: string, hull: Range, left: readonly Range[]): Range | null {
  const from = Math.max(0, hull.start - exact.length)
  const near = occurrencesOf(text.slice(from, hull.end + exact.length), exact)
    .map((place) => ({ start: place.start + from, end: place.end + from }))
    // A copy that was put in between holds none of the characters that are left.
    .filter((place) => left.some(({ start, end }) => place.start < end && start < place.end))
  const distance = (place: Range): number => Math.abs(place.start - hull.start)
  return near.reduce<Range | null>(
    (best, place) => (best === null || distance(place) < distance(best) ? place : best),
    null,
  )
}

function textAtPlaces(places: readonly (Range | null)[], text: string): string {
  return places.flatMap((place) => (place ? [text.slice(place.start, place.end)] : [])).join('\n')
}

function typeOf(link: Link, isWhole: boolean): LinkType {
  if (link.newer.ranges.length > 0 && link.older.ranges.length > 0) return isWhole ? 'quotes' : 'derives'
  return typeOfWholes(link)
}

/** The type that a link had when it was made, by the words that it recorded at its two ends. */
export function typeWhenMade(link: Link): LinkType {
  return typeOf(link, isSameWords(recordedWords(link.older), recordedWords(link.newer)))
}

function recordedWords({ ranges }: LinkEnd): string {
  return ranges.map(({ quote }) => quote.exact).join('\n')
}

/** Links that carry no words say what they are by what they join. */
function typeOfWholes({ newer, older }: Link): LinkType {
  if (newer.node.kind === 'entry' && older.node.kind === 'entry') return 'answers'
  if (newer.node.kind === older.node.kind) return 'revises'
  return 'cites'
}
