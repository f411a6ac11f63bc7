/**
 * Words that were cut out of a part, on their way to another place. On the clipboard they travel with where they stood, told
 * by the revision that the text had and by the lengths of what was typed since, so that nothing but the words themselves is
 * left there.
 */
import { isId, type LabId, type LinkId, type PartId, type RevisionId } from '../../lab/ids.ts'
import type { Piece, Revision } from '../../lab/model.ts'
import { toStorableText } from '../../lab/text.ts'
import { foldPieces, joinPieces, slicePieces } from '../../provenance/pieces.ts'

/** The media type under which cut words travel. Private tree by use (RFC 6838 §3.4). */
export const CUT_TYPE = 'application/x-stillroom-cut+json'

/** A stretch of the text of a revision; or so many characters that were typed since. */
export type CutStretch = { readonly start: number; readonly end: number } | { readonly typed: number }

export interface CutWords {
  readonly lab: LabId
  readonly part: PartId
  readonly revision: RevisionId
  readonly words: string
  /** Of what they consisted, in order; lengths add up to the words'. */
  readonly stretches: readonly CutStretch[]
  /** The links whose newer end has words among them. */
  readonly links: readonly LinkId[]
}

/** The most links that are read from a clipboard. */
const MOST_LINKS = 1000

/** @param changes from the revision's text to the one that they are cut from: pairs of lengths, as in `ChangeDesc.toJSON` */
export function stretchesOf(
  changes: readonly number[],
  range: { readonly start: number; readonly end: number },
): CutStretch[] {
  const stretches: CutStretch[] = []
  let [before, now] = [0, 0]
  for (let i = 0; i < changes.length; i += 2) {
    const [length, inserted] = [changes[i]!, changes[i + 1]!]
    const isKept = inserted < 0
    const here = isKept ? length : inserted
    const [start, end] = [Math.max(range.start, now), Math.min(range.end, now + here)]
    if (start < end)
      stretches.push(
        isKept ? { start: before + start - now, end: before + end - now } : { typed: end - start },
      )
    before += length
    now += here
  }
  return stretches
}

const lengthOf = (stretch: CutStretch): number =>
  'typed' in stretch ? stretch.typed : stretch.end - stretch.start

/**
 * The identities of cut words. Characters that no revision ever held are given the name of one to come.
 * @param revisions of the text that they were cut from, all of them in order
 * @param fresh the revision that brings them in
 * @returns null where the revision is not known
 */
export function piecesOfCut(
  { revision, stretches }: CutWords,
  revisions: readonly Revision[],
  fresh: RevisionId,
): Piece[] | null {
  const at = revisions.findIndex(({ id }) => id === revision)
  if (at < 0) return null
  const pieces = foldPieces(revisions.slice(0, at + 1))
  let inserted = 0
  return joinPieces(
    stretches.flatMap((stretch) => {
      const start = inserted
      inserted += lengthOf(stretch)
      return 'typed' in stretch ? [{ revision: fresh, start, end: inserted }] : slicePieces(pieces, stretch)
    }),
  )
}

/** Reads words that came by the clipboard; null where they are none of ours. They come from outside: trust nothing. */
export function readCutWords(json: string): CutWords | null {
  let value: unknown
  try {
    value = JSON.parse(json)
  } catch {
    return null
  }
  if (typeof value !== 'object' || value === null) return null
  const { lab, part, revision, words, stretches, links } = value as Readonly<Record<string, unknown>>
  if (!isId(lab) || !isId(part) || !isId(revision) || typeof words !== 'string') return null
  if (words === '' || toStorableText(words) !== words || !Array.isArray(stretches)) return null
  if (!Array.isArray(links) || links.length > MOST_LINKS || !links.every((id) => isId(id))) return null
  const read = stretches.map(readStretch)
  if (!read.every((one) => one !== null)) return null
  if (read.reduce((sum, one) => sum + lengthOf(one), 0) !== words.length) return null
  return {
    lab: lab as LabId,
    part: part as PartId,
    revision: revision as RevisionId,
    words,
    stretches: read,
    links: links as LinkId[],
  }
}

function readStretch(value: unknown): CutStretch | null {
  if (typeof value !== 'object' || value === null) return null
  const { start, end, typed } = value as Readonly<Record<string, unknown>>
  const isCount = (one: unknown): one is number => Number.isSafeInteger(one) && (one as number) >= 0
  if (isCount(typed)) return typed > 0 ? { typed } : null
  return isCount(start) && isCount(end) && start < end ? { start, end } : null
}
