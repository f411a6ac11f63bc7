/**
 * Striking out: taking a text away for good from every record that held it. It is masked character by character (mask.ts),
 * so that every position in change sets and selectors keeps its meaning. What remains is place, length and the fact.
 */
import type { Operation } from '../lab/change.ts'
import type { RevisionId } from '../lab/ids.ts'
import type { ChangeSetJson, Link, LinkEnd, Piece, Revision, TextDraft } from '../lab/model.ts'
import { changeText, insertedBy, lengthBefore } from '../lab/text.ts'
import { advancePieces, locatePieces, slicePieces } from '../provenance/pieces.ts'
import { mapWords } from '../journal/seal/words.ts'
import { makeSelector } from '../provenance/selectors.ts'
import { MASK, maskDeep, maskFields, maskRanges, maskText, maskWindow, placesOfSecret } from './mask.ts'

/**
 * One text's revisions and drafts with the secret masked, also where it was typed across several of them: the characters
 * are found by identity in every state that held the secret, and masked where they were typed or brought back.
 * @param revisions all of the node's, in order
 * @param drafts of the same node
 * @returns those that differ from before
 */
export function strikeTexts(
  revisions: readonly Revision[],
  drafts: readonly TextDraft[],
  secret: string,
): { readonly revisions: Revision[]; readonly drafts: TextDraft[] } {
  const states = statesOf(revisions, drafts)
  const struck = [...states.values()].flatMap(({ text, pieces }) =>
    placesOfSecret(text, secret).flatMap((place) => slicePieces(pieces, place)),
  )
  return {
    revisions: struck.length === 0 ? [] : revisions.flatMap((revision) => strikeRevision(revision, struck)),
    drafts: drafts.flatMap((draft) => strikeDraft(draft, states.get(identityOf(draft)), struck, secret)),
  }
}

interface TextState {
  readonly text: string
  readonly pieces: readonly Piece[]
}

/** Every state that a text ever was in, by the revision or draft that made it. */
function statesOf(revisions: readonly Revision[], drafts: readonly TextDraft[]): Map<RevisionId, TextState> {
  const states = new Map<RevisionId, TextState>()
  const advance = (
    from: TextState,
    changeSet: ChangeSetJson,
    id: RevisionId,
    restores: Revision['restores'],
  ) =>
    states.set(id, {
      text: changeText(from.text, changeSet),
      pieces: advancePieces(from.pieces, changeSet, id, restores),
    })
  let last: TextState = { text: '', pieces: [] }
  for (const { changeSet, id, restores } of revisions) {
    advance(last, changeSet, id, restores)
    last = states.get(id)!
  }
  for (const draft of drafts) {
    const base = states.get(draft.base)
    if (base && lengthBefore(draft.changeSet) === base.text.length)
      advance(base, draft.changeSet, identityOf(draft), null)
  }
  return states
}

/** A draft's characters are no revision's yet; its key tells them from all others. */
const identityOf = (draft: TextDraft): RevisionId => draft.key as RevisionId

function strikeRevision(revision: Revision, struck: readonly Piece[]): Revision[] {
  const changeSet = maskInserted(revision, struck)
  return changeSet ? [{ ...revision, changeSet }] : []
}

function strikeDraft(
  draft: TextDraft,
  state: TextState | undefined,
  struck: readonly Piece[],
  secret: string,
): TextDraft[] {
  const text = maskText(
    state ? maskRanges(state.text, locatePieces(state.pieces, struck)) : draft.text,
    secret,
  )
  const changeSet = state
    ? maskInserted({ id: identityOf(draft), changeSet: draft.changeSet, restores: null }, struck)
    : maskDeep(draft.changeSet, secret)
  return text === draft.text && !changeSet
    ? []
    : [{ ...draft, text, changeSet: changeSet ?? draft.changeSet }]
}

function maskInserted(
  revision: Pick<Revision, 'id' | 'changeSet' | 'restores'>,
  struck: readonly Piece[],
): ChangeSetJson | null {
  const inserted = insertedBy(revision.changeSet)
  const own = [{ revision: revision.id, start: 0, end: inserted.length }]
  const places = locatePieces(revision.restores ?? own, struck)
  if (places.length === 0) return null
  const characters = inserted.split('')
  for (const { start, end } of places)
    for (let i = start; i < end; i++) if (characters[i] !== '\n') characters[i] = MASK
  return withInserted(revision.changeSet, characters.join(''))
}

/** The same change set with other inserted characters, equally many. */
function withInserted(changeSet: ChangeSetJson, inserted: string): ChangeSetJson {
  let at = 0
  return changeSet.map((part) => {
    if (typeof part === 'number' || part.length < 2) return part
    const [deleted, ...lines] = part
    const length = lines.join('\n').length
    const next = inserted.slice(at, at + length)
    at += length
    return [deleted, ...next.split('\n')] as const
  })
}

/**
 * A stored operation with the secret masked; the operation itself where it held nothing. Change sets are taken from the
 * struck revisions, since a secret typed across several of them stands whole in none; links from whoever knows the texts
 * that they quote.
 */
export function strikeOperation(
  operation: Operation,
  secret: string,
  struckRevisions: ReadonlyMap<RevisionId, Revision>,
  strikeLink: (link: Link) => Link,
): Operation {
  if (operation.op === 'text') {
    const struck = struckRevisions.get(operation.toRevision)
    return struck ? { ...operation, changeSet: struck.changeSet } : operation
  }
  const strikeRecord = <T extends object>(record: T): T =>
    operation.table === 'links'
      ? (strikeLink(record as unknown as Link) as unknown as T)
      : operation.table === 'entries' || operation.table === 'marks'
        ? mapWords(operation.table, record, (words) => maskText(words, secret))
        : maskFields(record, secret)
  const before = operation.before && strikeRecord(operation.before)
  if (operation.op === 'remove')
    return before === operation.before ? operation : ({ ...operation, before } as Operation)
  const record = strikeRecord(operation.record)
  return record === operation.record && before === operation.before
    ? operation
    : ({ ...operation, record, before } as Operation)
}

/** A link's end whose text cannot be read any more: its quotes are masked as far as they show the secret. */
export function maskEnd(end: LinkEnd, secret: string): LinkEnd {
  const ranges = end.ranges.map(({ quote, position }) => ({
    position,
    quote: {
      ...quote,
      exact: maskWindow(quote.exact, secret),
      prefix: maskWindow(quote.prefix, secret),
      suffix: maskWindow(quote.suffix, secret),
    },
  }))
  return { ...end, ranges }
}

/**
 * A link's end with its quotes read anew from the masked text that they were taken from.
 * @param text the node's text at the end's revision, masked
 */
export function strikeEnd(end: LinkEnd, text: string): LinkEnd {
  const ranges = end.ranges.map(({ position }) => makeSelector(text, position))
  return { ...end, ranges }
}
