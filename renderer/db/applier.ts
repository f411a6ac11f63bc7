/**
 * Applies the operations of one Change inside its transaction, keeping what is needed for the inverse and for the
 * derived tables. Strict for a Change that a person makes; lenient for an undo, where an operation that no longer fits
 * what stands now is left out instead of stopping the rest.
 */
import type {
  Operation,
  PutOperation,
  RemoveOperation,
  TableName,
  Tables,
  TextOperation,
} from '../../shared/lab/change.ts'
import type { SealedText } from '../../shared/journal/seal/model.ts'
import type { ChangeId, IdMaker, LinkId, ProcedureId, RevisionId } from '../../shared/lab/ids.ts'
import type {
  Capture,
  Link,
  Parameter,
  Part,
  Piece,
  Revision,
  TextNodeId,
  TextRecord,
  Version,
} from '../../shared/lab/model.ts'
import type { Moment } from '../../shared/lab/moment.ts'
import { blobsNamedIn, changeText, lengthBefore } from '../../shared/lab/text.ts'
import { isSame, mergeFields } from '../../shared/lab/fields.ts'
import { invertText, keyOf, reversePut, reverseRemove } from '../../shared/lab/undo.ts'
import { headOf } from '../../shared/lab/capture-head.ts'
import { advancePieces } from '../../shared/provenance/pieces.ts'
import { Refusal, refuse } from './refusal.ts'
import {
  findMissing,
  hasSuchParameter,
  hasSuchPart,
  isNamed,
  isNextVersion,
  isPermanent,
  isUnchanging,
  keepsSecret,
} from './rules.ts'
import type { LabDatabase } from './schema.ts'

export class Applier {
  readonly applied: Operation[] = []
  /** In the order in which they take the applied ones back. */
  readonly inverse: Operation[] = []
  readonly changedTexts = new Set<TextNodeId>()
  /** Procedures whose parameters changed: what their parts' links are compared with changed too. */
  readonly changedParameters = new Set<ProcedureId>()
  readonly newLinks: Link[] = []
  readonly goneLinks: LinkId[] = []
  /** The revisions of entries that were written, each with its whole text. */
  readonly written = new Map<RevisionId, SealedText>()

  constructor(
    private readonly db: LabDatabase,
    private readonly change: { readonly id: ChangeId; readonly at: Moment },
    private readonly ids: IdMaker,
    private readonly isLenient: boolean,
  ) {}

  /** Applies one operation, or refuses the whole Change. */
  async apply(operation: Operation): Promise<void> {
    try {
      if (operation.op === 'put') await this.put(operation)
      else if (operation.op === 'remove') await this.remove(operation)
      else await this.changeText(operation)
    } catch (error) {
      if (!(this.isLenient && error instanceof Refusal)) throw error
    }
  }

  private async put(operation: PutOperation): Promise<void> {
    const { table } = operation
    const present = await this.find(table, keyOf(table, operation.record))
    const record =
      present && operation.before
        ? mergeFields(operation.before, operation.record, present)
        : operation.record
    if (present && (table === 'blobs' || isSame(present, record))) return
    if (present && isUnchanging(table))
      refuse(
        'append-only',
        'That is already recorded and does not change. Nothing was written; what stood there still stands.',
      )
    const missing = await findMissing(this.db, table, record)
    if (missing)
      refuse(
        'missing',
        `This belongs to something that is no longer there (${missing[0]}). Nothing was written.`,
      )
    if (table === 'parts' && (await hasSuchPart(this.db, record as Part)))
      refuse(
        'stale-revision',
        'Such a part was begun in another window in the meantime. Nothing was written; try again, and it joins that part.',
      )
    if (table === 'parameters') await this.checkParameter(record as Parameter)
    if (table === 'versions' && !present && !(await isNextVersion(this.db, record as Version)))
      refuse(
        'stale-revision',
        'A version was marked in another window in the meantime. Look at it, then try again.',
      )
    await this.db.table(table).put(record)
    if (table === 'parameters') this.changedParameters.add((record as Parameter).procedure)
    if (table === 'links') this.newLinks.push(record as Link)
    if (table === 'captures') await this.db.captureHeads.put(headOf(record as Capture))
    const done = { ...operation, record, before: present ?? null } as PutOperation
    this.note(done, reversePut(done, record, this.ids, this.change.at))
  }

  private async checkParameter(parameter: Parameter): Promise<void> {
    if (keepsSecret(parameter)) throw new RangeError('a secret parameter came with a value')
    if (await hasSuchParameter(this.db, parameter))
      refuse(
        'stale-revision',
        `This procedure has a parameter named ${parameter.name} already. Nothing was written; choose another name.`,
      )
  }

  private async remove(operation: RemoveOperation): Promise<void> {
    const { table } = operation
    const key = keyOf(table, operation.before)
    if (isPermanent(table))
      refuse(
        'append-only',
        'The journal only grows: this cannot be removed. It can be withdrawn, or struck out for good.',
      )
    const present = await this.find(table, key)
    if (!present) refuse('missing', 'That was already gone. Nothing was written.')
    if (await isNamed(this.db, table, key))
      refuse('still-used', 'Something else still rests on this, so it was left where it is.')
    await this.db.table(table).delete(key)
    if (table === 'links') this.goneLinks.push(key as LinkId)
    if (table === 'parameters') this.changedParameters.add((present as Parameter).procedure)
    if (table === 'captures') await this.db.captureHeads.delete(key)
    const done = { ...operation, before: present } as RemoveOperation
    this.note(done, reverseRemove(done, undefined))
  }

  private async changeText(operation: TextOperation): Promise<void> {
    const { node, changeSet, toRevision, restores, ends } = operation
    const last = await lastRevisionOf(this.db, node.id)
    if ((last?.id ?? null) !== operation.fromRevision)
      refuse(
        'stale-revision',
        'This text was changed in another window in the meantime. Both wordings are kept; try again.',
      )
    await this.checkNode(operation)
    const before = await this.textBefore(node.id)
    if (lengthBefore(changeSet) !== before.text.length)
      throw new RangeError(`a change set for ${lengthBefore(changeSet)} characters met ${before.text.length}`)
    const text = changeText(before.text, changeSet)
    const pieces = advancePieces(before.pieces, changeSet, toRevision, restores)
    const revision = { ...this.revisionOf(operation, last), blobs: blobsNamedIn(text) }
    await this.db.revisions.add(revision)
    if (node.kind === 'entry') this.written.set(revision.id, { record: revision, text })
    if (ends) await this.db.texts.delete(node.id)
    else await this.db.texts.put({ node: node.id, text, pieces })
    this.changedTexts.add(node.id)
    this.note(operation, this.inverseOfText(operation, before, last?.ended ?? true))
  }

  private async checkNode({ node, ends }: TextOperation): Promise<void> {
    const owner =
      node.kind === 'entry' ? await this.db.entries.get(node.id) : await this.db.parts.get(node.id)
    if (!owner && !ends)
      refuse('missing', 'The place of this text is no longer there. The words are kept as a draft.')
  }

  private async textBefore(node: TextNodeId): Promise<{ text: string; pieces: readonly Piece[] }> {
    return (await this.db.texts.get(node)) ?? ({ node, text: '', pieces: [] } satisfies TextRecord)
  }

  private revisionOf(operation: TextOperation, last: Revision | undefined): Omit<Revision, 'blobs'> {
    return {
      id: operation.toRevision,
      node: operation.node.id,
      number: (last?.number ?? 0) + 1,
      from: operation.fromRevision,
      changeSet: operation.changeSet,
      restores: operation.restores,
      ended: operation.ends,
      moment: this.change.at,
      change: this.change.id,
    }
  }

  /** The first text of an entry has no inverse of its own: the entry is withdrawn with it. */
  private inverseOfText(
    operation: TextOperation,
    before: { text: string; pieces: readonly Piece[] },
    wasNew: boolean,
  ): TextOperation | null {
    if (operation.node.kind === 'entry' && operation.fromRevision === null) return null
    return invertText(operation, before, wasNew, this.ids.make())
  }

  private note(done: Operation, inverse: Operation | null): void {
    this.applied.push(done)
    if (inverse) this.inverse.unshift(inverse)
  }

  private find<T extends TableName>(table: T, key: string): Promise<Tables[T] | undefined> {
    return this.db.tableOf(table).get(key)
  }
}

/** The newest revision of a text, ended or not. */
export async function lastRevisionOf(db: LabDatabase, node: TextNodeId): Promise<Revision | undefined> {
  return db.revisions.where('[node+number]').between([node, 0], [node, Infinity]).last()
}

/** All revisions of a text, in order. */
export async function revisionsOf(db: LabDatabase, node: TextNodeId): Promise<Revision[]> {
  return db.revisions.where('[node+number]').between([node, 0], [node, Infinity]).sortBy('number')
}
