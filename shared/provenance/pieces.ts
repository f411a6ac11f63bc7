/**
 * The identity of characters. Every character of a text is known by the revision that typed it and its place among
 * what that revision inserted. An edit drops and adds identities but never alters one; an undo brings the old
 * identities back. So "where are these words now" has one exact answer, after any number of edits and undos.
 *
 * A text's pieces are its characters' identities in order, run by run, adjacent runs of one revision joined.
 */
import type { RevisionId } from '../lab/ids.ts'
import type { ChangeSetJson, Piece, Range, Revision } from '../lab/model.ts'
import { toChangeSet } from '../lab/text.ts'

/** Number of characters (UTF-16 code units) that the pieces stand for. */
export function lengthOfPieces(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, piece) => sum + piece.end - piece.start, 0)
}

/** Joins runs that continue each other, and drops empty ones. Equal sequences of identities give equal arrays. */
export function joinPieces(pieces: readonly Piece[]): Piece[] {
  const joined: Piece[] = []
  for (const piece of pieces) {
    if (piece.start >= piece.end) continue
    const last = joined.at(-1)
    if (last && last.revision === piece.revision && last.end === piece.start)
      joined[joined.length - 1] = { ...last, end: piece.end }
    else joined.push(piece)
  }
  return joined
}

/** The identities of a range of a text. */
export function slicePieces(pieces: readonly Piece[], range: Range): Piece[] {
  const slice: Piece[] = []
  let at = 0
  for (const piece of pieces) {
    const length = piece.end - piece.start
    const start = Math.max(range.start - at, 0)
    const end = Math.min(range.end - at, length)
    if (start < end)
      slice.push({ revision: piece.revision, start: piece.start + start, end: piece.start + end })
    at += length
    if (at >= range.end) break
  }
  return joinPieces(slice)
}

/**
 * The identities after a change set.
 * @param revision the revision that the change set leads to
 * @param restores identities of what it inserts, where it brings characters back
 */
export function advancePieces(
  pieces: readonly Piece[],
  changeSet: ChangeSetJson,
  revision: RevisionId,
  restores: readonly Piece[] | null,
): Piece[] {
  const next: Piece[] = []
  let kept = 0
  let inserted = 0
  toChangeSet(changeSet).iterChanges((fromA, toA, fromB, toB) => {
    next.push(...slicePieces(pieces, { start: kept, end: fromA }))
    const place = { start: inserted, end: inserted + toB - fromB }
    next.push(...(restores ? slicePieces(restores, place) : [{ revision, ...place }]))
    inserted = place.end
    kept = toA
  }, true)
  next.push(...slicePieces(pieces, { start: kept, end: lengthOfPieces(pieces) }))
  return joinPieces(next)
}

/** The identities after the last of a node's revisions, from the first on. */
export function foldPieces(revisions: readonly Revision[]): Piece[] {
  return revisions.reduce<Piece[]>(
    (pieces, { changeSet, id, restores }) => advancePieces(pieces, changeSet, id, restores),
    [],
  )
}

/** Where the wanted characters stand in a text with these pieces: ranges in text order, touching ones joined. */
export function locatePieces(pieces: readonly Piece[], wanted: readonly Piece[]): Range[] {
  const found: Range[] = []
  let at = 0
  for (const piece of pieces) {
    for (const overlap of overlapsOf(piece, wanted)) {
      const start = at + overlap.start - piece.start
      const end = at + overlap.end - piece.start
      const last = found.at(-1)
      if (last && last.end === start) found[found.length - 1] = { start: last.start, end }
      else found.push({ start, end })
    }
    at += piece.end - piece.start
  }
  return found
}

function overlapsOf(piece: Piece, wanted: readonly Piece[]): Range[] {
  return wanted
    .filter((w) => w.revision === piece.revision && w.start < piece.end && piece.start < w.end)
    .map((w) => ({ start: Math.max(w.start, piece.start), end: Math.min(w.end, piece.end) }))
    .sort((a, b) => a.start - b.start)
}

/** From the start of the first range to the end of the last; null where there is none. */
export function hullOf(ranges: readonly Range[]): Range | null {
  const first = ranges[0]
  const last = ranges.at(-1)
  return first && last ? { start: first.start, end: last.end } : null
}
