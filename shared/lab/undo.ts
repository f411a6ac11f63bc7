/**
 * Undo. The inverse of a Change is made against what stands now, not against what stood then: whatever came later is
 * kept. For texts that is done by the identity of characters (provenance/pieces.ts): what the Change typed and still
 * stands goes, what it deleted and is still gone comes back beside its old neighbours, all else is left alone.
 */
import { ChangeSet } from '@codemirror/state'
import {
  advancePieces,
  foldPieces,
  joinPieces,
  lengthOfPieces,
  locatePieces,
  slicePieces,
} from '../provenance/pieces.ts'
import type {
  Act,
  PutOperation,
  RemoveOperation,
  StoredChange,
  TableName,
  Tables,
  TextOperation,
} from './change.ts'
import type { ChangeId, IdMaker, RevisionId } from './ids.ts'
import type { Piece, Range, Revision, Withdrawal } from './model.ts'
import { isSame, mergeLists } from './fields.ts'
import { reversedSays } from './mark-acts.ts'
import type { Moment } from './moment.ts'
import { deletingAll, foldText, insertingAll, toChangeSet, toChangeSetJson, toLines } from './text.ts'

/**
 * The text operation that takes another one back, or null where nothing of it is left to take back.
 * @param revisions all of the node's, in order
 */
export function reverseText(
  operation: TextOperation,
  revisions: readonly Revision[],
  ids: IdMaker,
): TextOperation | null {
  const at = revisions.findIndex((revision) => revision.id === operation.toRevision)
  const last = revisions.at(-1)
  if (at < 0 || !last) return null
  const earlier = revisions.slice(0, at)
  if (operation.ends) return last.id === operation.toRevision ? reviveText(operation, earlier, ids) : null
  if (last.ended) return null
  const parts = reversedParts(operation, earlier, foldPieces(revisions))
  const wasNew = operation.fromRevision === null || (earlier.at(-1)?.ended ?? true)
  const ends = wasNew && parts.lengthAfter === 0
  if (parts.isEmpty && !ends) return null
  return {
    op: 'text',
    node: operation.node,
    fromRevision: last.id,
    changeSet: ends ? deletingAll(parts.lengthBefore) : toChangeSetJson(parts.changes),
    toRevision: ids.make(),
    restores: parts.restores.length > 0 ? parts.restores : null,
    ends,
  }
}

/**
 * The inverse of a text operation right behind it, while nothing came later.
 * @param wasNew the text did not stand before
 */
export function invertText(
  operation: TextOperation,
  before: { readonly text: string; readonly pieces: readonly Piece[] },
  wasNew: boolean,
  toRevision: RevisionId,
): TextOperation {
  const changes = toChangeSet(operation.changeSet)
  const deleted: Piece[] = []
  changes.iterChanges((start, end) => deleted.push(...slicePieces(before.pieces, { start, end })), true)
  return {
    op: 'text',
    node: operation.node,
    fromRevision: operation.toRevision,
    changeSet: toChangeSetJson(changes.invert(toLines(before.text))),
    toRevision,
    restores: deleted.length > 0 ? joinPieces(deleted) : null,
    ends: wasNew && !operation.ends,
  }
}

function reviveText(operation: TextOperation, earlier: readonly Revision[], ids: IdMaker): TextOperation {
  return {
    op: 'text',
    node: operation.node,
    fromRevision: operation.toRevision,
    changeSet: insertingAll(foldText(earlier)),
    toRevision: ids.make(),
    restores: foldPieces(earlier),
    ends: false,
  }
}

interface Insertion {
  readonly at: number
  readonly text: string
  readonly pieces: readonly Piece[]
}

function reversedParts(operation: TextOperation, earlier: readonly Revision[], present: readonly Piece[]) {
  const before = foldPieces(earlier)
  const after = advancePieces(before, operation.changeSet, operation.toRevision, operation.restores)
  const deletions = locatePieces(present, subtractPieces(after, before))
  const gone = subtractPieces(subtractPieces(before, after), present)
  const insertions = placesOfGone(gone, before, foldText(earlier), present)
  const lengthBefore = lengthOfPieces(present)
  const changes = ChangeSet.of(
    [
      ...insertions.map(({ at, text }) => ({ from: at, insert: toLines(text) })),
      ...deletions.map(({ start, end }) => ({ from: start, to: end })),
    ],
    lengthBefore,
  )
  return {
    changes,
    restores: joinPieces(insertions.flatMap(({ pieces }) => pieces)),
    isEmpty: insertions.length + deletions.length === 0,
    lengthBefore,
    lengthAfter: changes.newLength,
  }
}

/** Where in the present text each vanished run goes back: behind its nearest standing left neighbour of then. */
function placesOfGone(
  gone: readonly Piece[],
  before: readonly Piece[],
  textBefore: string,
  present: readonly Piece[],
): Insertion[] {
  const insertions: Insertion[] = []
  let anchor: number | null = null
  for (const range of splitByStanding(before, gone)) {
    const run = slicePieces(before, range)
    const standing = locatePieces(present, run)
    const isGone = locatePieces(run, gone).length > 0
    if (isGone)
      insertions.push({ at: anchor ?? -1, text: textBefore.slice(range.start, range.end), pieces: run })
    else if (standing.length > 0) {
      const first = standing[0]!.start
      if (anchor === null) takeRightNeighbour(insertions, first)
      anchor = standing.at(-1)!.end
    }
  }
  takeRightNeighbour(insertions, 0)
  return insertions.sort((a, b) => a.at - b.at)
}

/** Runs without a standing left neighbour go before their right one. */
function takeRightNeighbour(insertions: Insertion[], at: number): void {
  for (let i = 0; i < insertions.length; i++)
    if (insertions[i]!.at < 0) insertions[i] = { ...insertions[i]!, at }
}

/** Cuts a text's ranges so that each is wholly among the vanished or wholly not. */
function splitByStanding(before: readonly Piece[], gone: readonly Piece[]): Range[] {
  const vanished = locatePieces(before, gone)
  const ranges: Range[] = []
  let at = 0
  for (const range of vanished) {
    if (at < range.start) ranges.push({ start: at, end: range.start })
    ranges.push(range)
    at = range.end
  }
  const length = lengthOfPieces(before)
  if (at < length) ranges.push({ start: at, end: length })
  return ranges
}

/** The characters of `pieces` that are not among `others`, in order. */
export function subtractPieces(pieces: readonly Piece[], others: readonly Piece[]): Piece[] {
  const taken = locatePieces(pieces, others)
  const left: Piece[] = []
  let at = 0
  for (const range of taken) {
    left.push(...slicePieces(pieces, { start: at, end: range.start }))
    at = range.end
  }
  left.push(...slicePieces(pieces, { start: at, end: lengthOfPieces(pieces) }))
  return joinPieces(left)
}

/** The key of a record in its table. */
export function keyOf(table: TableName, record: Tables[TableName]): string {
  if (table === 'blobs') return (record as Tables['blobs']).sha256
  if (table === 'entryTags') return (record as Tables['entryTags']).entry
  return (record as Tables['projects']).id
}

/**
 * The operation that takes a put back, given what stands there now; null where nothing is to be done.
 * Entries are never removed: a new one is withdrawn, and a withdrawal or a mark is answered by a further one.
 */
export function reversePut(
  operation: PutOperation,
  present: Tables[TableName] | undefined,
  ids: IdMaker,
  moment: Moment,
): PutOperation | RemoveOperation | null {
  switch (operation.table) {
    case 'entries':
      return putWithdrawal({ id: ids.make(), entry: operation.record.id, moment, withdrawn: true })
    case 'withdrawals':
      return putWithdrawal({
        ...operation.record,
        id: ids.make(),
        moment,
        withdrawn: !operation.record.withdrawn,
      })
    case 'marks': {
      const { entry, says } = operation.record
      return {
        op: 'put',
        table: 'marks',
        record: { id: ids.make(), entry, moment, says: reversedSays(says) },
        before: null,
      }
    }
    case 'strikes':
      return null
    default:
      if (!present) return null
      return operation.before === null
        ? ({ op: 'remove', table: operation.table, before: present } as RemoveOperation)
        : restoreFields(operation, operation.before, present)
  }
}

function putWithdrawal(record: Withdrawal): PutOperation {
  return { op: 'put', table: 'withdrawals', record, before: null }
}

/** Field by field: what the put set and still stands goes back; what was set later stays. */
function restoreFields(
  operation: PutOperation,
  before: Tables[TableName],
  present: Tables[TableName],
): PutOperation | null {
  const [was, set, now] = [before, operation.record, present] as unknown as Record<string, unknown>[]
  const next: Record<string, unknown> = { ...now }
  for (const field of new Set([...Object.keys(was!), ...Object.keys(set!)]))
    if (Array.isArray(set![field])) next[field] = mergeLists(set![field], was![field], now![field])
    else if (!isSame(was![field], set![field]) && isSame(now![field], set![field])) next[field] = was![field]
  if (isSame(next, now)) return null
  return { op: 'put', table: operation.table, record: next, before: present } as unknown as PutOperation
}

/** The operation that takes a removal back, or null where something stands in its place again. */
export function reverseRemove(
  operation: RemoveOperation,
  present: Tables[TableName] | undefined,
): PutOperation | null {
  if (present) return null
  return { op: 'put', table: operation.table, record: operation.before, before: null } as PutOperation
}

/**
 * Acts that only make ready for another one. Taking one back would show nothing, and would take from under a draft what it
 * names.
 */
const preparing: ReadonlySet<Act> = new Set(['keep pictures'])

/** What undo and redo need to know of a Change. */
export type PastChange = Pick<StoredChange, 'id' | 'act' | 'reverses'>

/**
 * Which Change undo takes back next: the newest that still holds. A redo stands in for what it brought back. Loading
 * the sample is a floor that undo does not pass; striking out has no inverse and is passed over, and so is what only
 * prepares another act.
 * @param newestFirst the lab's Changes, from the newest on
 * @param isSpent says of a Change that nothing of it is left to take back; it is passed over
 */
export function findUndoTarget(
  newestFirst: Iterable<PastChange>,
  isSpent: (id: ChangeId) => boolean = () => false,
): ChangeId | null {
  const reversed = new Set<ChangeId>()
  for (const change of newestFirst) {
    if (reversed.has(change.id)) continue
    if (change.act === 'load the sample') return null
    if (change.reverses) reversed.add(change.reverses)
    const isPassed = change.act === 'undo' || change.act === 'strike out' || preparing.has(change.act)
    if (!isPassed && !isSpent(change.id)) return change.id
  }
  return null
}

/**
 * Which undo redo takes back next: the newest that still holds, as long as nothing new was done since. What only prepares
 * another act is nothing new.
 */
export function findRedoTarget(
  newestFirst: Iterable<PastChange>,
  isSpent: (id: ChangeId) => boolean = () => false,
): ChangeId | null {
  const reversed = new Set<ChangeId>()
  for (const change of newestFirst) {
    if (reversed.has(change.id)) continue
    if (change.act === 'undo') {
      if (isSpent(change.id)) continue
      return change.id
    }
    if (preparing.has(change.act)) continue
    if (change.act !== 'redo' || !change.reverses) return null
    reversed.add(change.reverses)
  }
  return null
}
