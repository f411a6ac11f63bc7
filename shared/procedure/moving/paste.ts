/** Putting words that were cut out of a part in at another place. One Change. */
import { makeChange, type StandingText, type Surroundings } from '../../lab/acts.ts'
import type { Change, Operation } from '../../lab/change.ts'
import type { RevisionId } from '../../lab/ids.ts'
import type { EndState, Link, Part, Piece, Revision } from '../../lab/model.ts'
import { replacing } from '../../lab/text.ts'
import { linksGoAlong, type StandingLink } from '../../provenance/moving.ts'
import { foldPieces, hullOf, lengthOfPieces, locatePieces, slicePieces } from '../../provenance/pieces.ts'
import { rangeOfSelector } from '../../provenance/selectors.ts'
import { piecesOfCut, type CutWords } from './cut.ts'

export interface Pasting {
  readonly part: Part
  readonly text: StandingText
  /** The identities of the text's characters. */
  readonly pieces: readonly Piece[]
  /** A place in the text, from 0 to its length. */
  readonly offset: number
}

/**
 * Puts cut words in. Back in the text that they were cut from they are the same characters again, so that all that knows them
 * finds them; in another text the links of theirs that lost their words go along.
 * @param from all revisions of the text that they were cut from, in order; the links with an end at it; and those that had
 *   words among the cut ones and stand no more
 * @returns null where they cannot be known again: then they are words like any others
 */
export function pasteCut(
  around: Surroundings,
  cut: CutWords,
  from: {
    readonly revisions: readonly Revision[]
    readonly links: readonly StandingLink[]
    readonly past: readonly Link[]
  },
  to: Pasting,
): Change | null {
  const toRevision: RevisionId = around.ids.make()
  const pieces = piecesOfCut(cut, from.revisions, toRevision)
  if (!pieces || lengthOfPieces(pieces) !== cut.words.length) return null
  const { text, revision: fromRevision } = to.text
  const node = { kind: 'part', id: to.part.id } as const
  // Words that are pasted a second time are a copy, with links of its own.
  const isBack = to.part.id === cut.part && locatePieces(to.pieces, pieces).length === 0
  const write: Operation = {
    op: 'text',
    node,
    fromRevision,
    changeSet: replacing(text.length, { start: to.offset, end: to.offset }, cut.words),
    toRevision,
    restores: isBack ? pieces : null,
    ends: false,
  }
  // Words of theirs stand at the old place, or they went before.
  const isLeft = new Set([
    ...from.past.map(({ id }) => id),
    ...from.links.filter((one) => !isLoose(one, cut)).map(({ link }) => link.id),
  ])
  const moved = linksGoAlong(
    around,
    { node: cut.part, text: cut.words },
    [
      ...(isBack ? [] : from.links.flatMap((one) => standingAmong(pieces, cut, one))),
      ...from.past.flatMap((link) => pastAmong(pieces, link, from.revisions)),
    ],
    [
      {
        node,
        revision: toRevision,
        text: text.slice(0, to.offset) + cut.words + text.slice(to.offset),
        stretch: { start: 0, end: cut.words.length },
        offset: to.offset,
      },
    ],
    null,
    (link) => isLeft.has(link.id),
    true,
  )
  return makeChange(around, 'move words', [write, ...moved])
}

const isLoose = ({ link, state }: StandingLink, { part }: CutWords): boolean =>
  (link.newer.node.id === part ? state.newer : state.older).loose

/**
 * A link that stands with the places that its words have among the cut ones; none where they are not among them. One text
 * cannot be the older end in two places, so that end goes only once no word of it is left.
 */
function standingAmong(
  pieces: readonly Piece[],
  { part }: CutWords,
  { link, state }: StandingLink,
): StandingLink[] {
  const side = link.newer.node.id === part ? 'newer' : 'older'
  const end = state[side]
  if (end.places.length === 0 || (side === 'older' && !end.loose)) return []
  return [{ link, state: { ...state, [side]: placedAmong(pieces, end) } }]
}

/** A link that stands no more, since its step was removed or the rest of its words went on: told from its record alone. */
function pastAmong(pieces: readonly Piece[], link: Link, revisions: readonly Revision[]): StandingLink[] {
  const until = revisions.findIndex(({ id }) => id === link.newer.revision)
  if (until < 0 || link.newer.ranges.length === 0) return []
  const then = foldPieces(revisions.slice(0, until + 1))
  const bare = { places: [], loose: true } as const
  const newer: EndState = {
    ...bare,
    node: link.newer.node.id,
    pieces: link.newer.ranges.map((selector) => slicePieces(then, rangeOfSelector(selector))),
  }
  const older: EndState = { ...bare, node: link.older.node.id, pieces: [] }
  const state = {
    link: link.id,
    type: 'derives',
    kept: 0,
    newer: placedAmong(pieces, newer),
    older,
    loose: true,
  } as const
  return [{ link, state }]
}

const placedAmong = (pieces: readonly Piece[], end: EndState): EndState => ({
  ...end,
  places: end.pieces.map((one) => hullOf(locatePieces(pieces, one))),
})
