/**
 * The one way to write. A Change lands whole in one strict IndexedDB transaction, together with its own record, the
 * revisions, the texts and the states of links that follow from it, or not at all.
 */
import type { Act, Change, Operation, StoredChange } from '../../shared/lab/change.ts'
import type { Surroundings } from '../../shared/lab/acts.ts'
import type { ChangeId, IdMaker, LinkId } from '../../shared/lab/ids.ts'
import type { Sealing } from '../../shared/journal/seal/seal.ts'
import { isOfSame } from '../../shared/lab/mark-acts.ts'
import type { LinkNode, Mark } from '../../shared/lab/model.ts'
import {
  findRedoTarget,
  findUndoTarget,
  reversePut,
  reverseRemove,
  reverseText,
  keyOf,
} from '../../shared/lab/undo.ts'
import { toStorableText } from '../../shared/lab/text.ts'
import { maskText, SHORTEST_STRIKE } from '../../shared/safety/mask.ts'
import { Applier, revisionsOf } from './applier.ts'
import { updateLinkStates } from './linkStates.ts'
import { refuse, withRefusals, type CommitFailure } from './refusal.ts'
import type { LabDatabase } from './schema.ts'
import { journalsBefore, sealApplied, sealStrike } from './sealing.ts'
import { strikeEverywhere } from './strike.ts'

export interface Committed {
  readonly change: StoredChange
  /** Takes the Change back as long as nothing came later; otherwise `undo` does, mapping it over what came. */
  readonly inverse: Change
  /** Links whose state was derived anew. */
  readonly links: readonly LinkId[]
}

export type CommitResult = { readonly ok: true; readonly value: Committed } | CommitFailure

/** Commits Changes to one lab, and takes them back. */
export class Committer {
  constructor(
    private readonly db: LabDatabase,
    private readonly surroundings: Surroundings,
  ) {}

  /**
   * Commits one Change.
   * @param doneDrafts keys of drafts that this Change makes into records; they go in the same transaction
   * @returns the stored Change and its inverse; or why nothing was written: a stale revision, a rule of the journal,
   *   something missing or still used, a full disk
   */
  commit(change: Change, doneDrafts: readonly string[] = []): Promise<CommitResult> {
    return withRefusals(() => this.inTransaction(() => this.write(change, doneDrafts)))
  }

  /** Commits many Changes in one transaction, all or none. */
  commitAll(changes: readonly Change[]): Promise<{ ok: true; value: Committed[] } | CommitFailure> {
    return withRefusals(() =>
      this.inTransaction(async () => {
        const all: Committed[] = []
        for (const change of changes) all.push(await this.write(change, []))
        return all
      }),
    )
  }

  /** Takes one Change back, mapped over all that came later. Without a target, the newest that still holds. */
  undo(target?: ChangeId): Promise<CommitResult> {
    return this.reverse('undo', target)
  }

  /** Takes the newest undo back, unless something new was done since. */
  redo(): Promise<CommitResult> {
    return this.reverse('redo')
  }

  /** The Changes that undo and redo would take back now. */
  findTargets(): Promise<{ undo: StoredChange | null; redo: StoredChange | null }> {
    return this.db.transaction('r', this.db.changes, async () => ({
      undo: await this.findPast('undo', new Set()),
      redo: await this.findPast('redo', new Set()),
    }))
  }

  /**
   * Strikes a text out of every record, for good. There is no inverse.
   * @param node where the person pointed at it
   * @param secret at least SHORTEST_STRIKE code units without the white space around it, which is left alone; every
   *   occurrence in the lab is masked
   */
  strikeOut(node: LinkNode, secret: string, reason: string): Promise<CommitResult> {
    const words = toStorableText(secret).trim()
    return withRefusals(() =>
      this.inTransaction(async () => {
        if (words.length < SHORTEST_STRIKE)
          refuse(
            'nothing-left',
            `Select at least ${SHORTEST_STRIKE} characters: a shorter text would be struck out of words that merely contain it.`,
          )
        const before = await journalsBefore(this.db)
        const { count: records, emptied } = await strikeEverywhere(this.db, words)
        if (records === 0)
          refuse('nothing-left', 'This text does not stand in the lab any more. Nothing was changed.')
        const { ids, clock } = this.surroundings
        const record = {
          id: ids.make<never>(),
          moment: clock.now(),
          node,
          reason: maskText(reason, words),
          records,
        }
        const committed = await this.write(
          this.makeChange('strike out', null, [{ op: 'put', table: 'strikes', record, before: null }]),
          [],
        )
        await sealStrike(this.db, before, record, emptied, this.sealing())
        return committed
      }),
    )
  }

  private reverse(act: 'undo' | 'redo', target?: ChangeId): Promise<CommitResult> {
    return withRefusals(() =>
      this.inTransaction(async () => {
        const spent = new Set<ChangeId>()
        for (;;) {
          const past = target ? await this.requireStanding(target) : await this.findPast(act, spent)
          if (!past)
            refuse('nothing-left', act === 'undo' ? 'There is nothing to undo.' : 'There is nothing to redo.')
          const committed = await this.maybeTakeBack(act, past)
          if (committed) return committed
          if (target)
            refuse('nothing-left', 'Nothing of that is left to take back: it was changed or removed since.')
          // A Change that changed nothing, or whose every trace is gone, must not stand in the way of older ones.
          spent.add(past.id)
        }
      }),
    )
  }

  /** Null where nothing of the Change is left to take back; then nothing was written. */
  private async maybeTakeBack(act: 'undo' | 'redo', past: StoredChange): Promise<Committed | null> {
    const change = this.makeChange(act, past.id, past.operations)
    const applier = new Applier(this.db, change, this.surroundings.ids, true)
    await this.applyReversed(applier, change)
    return applier.applied.length === 0 ? null : this.record(change, applier, [])
  }

  private sealing(): Sealing {
    const { clock, randomBytes } = this.surroundings
    return { at: clock.now(), randomBytes }
  }

  private makeChange(act: Act, reverses: ChangeId | null, operations: readonly Operation[]): Change {
    const { ids, clock, who } = this.surroundings
    return { id: ids.make(), at: clock.now(), who: who(), act, reverses, operations }
  }

  /**
   * The Change that undo or redo takes back. The newest few nearly always tell, the newest hundred almost always; else all
   * are read. Changes that added hundreds of sources are slow to read.
   */
  private async findPast(act: 'undo' | 'redo', spent: ReadonlySet<ChangeId>): Promise<StoredChange | null> {
    const find = act === 'undo' ? findUndoTarget : findRedoTarget
    for (const most of [3, 100, Infinity]) {
      const newestFirst = await this.newestFirst(most)
      const empty = new Set(newestFirst.filter((c) => c.operations.length === 0).map((c) => c.id))
      let ranOut = false
      const walk = function* () {
        yield* newestFirst
        ranOut = true
      }
      const id = find(walk(), (change) => spent.has(change) || empty.has(change))
      if (id || !ranOut || newestFirst.length < most)
        return newestFirst.find((change) => change.id === id) ?? null
    }
    return null
  }

  private newestFirst(most = Infinity): Promise<StoredChange[]> {
    const all = this.db.changes.orderBy('sequence').reverse()
    return (most === Infinity ? all : all.limit(most)).toArray()
  }

  private async requireStanding(id: ChangeId): Promise<StoredChange> {
    const past = await this.db.changes.where('id').equals(id).first()
    if (!past) refuse('missing', 'What was to be undone is not in this lab.')
    const later = await this.db.changes.where('sequence').above(past.sequence).toArray()
    const reversed = new Set<ChangeId>()
    for (const change of later.reverse())
      if (change.reverses && !reversed.has(change.id)) reversed.add(change.reverses)
    if (reversed.has(id)) refuse('nothing-left', 'That was undone already.')
    return past
  }

  private inTransaction<T>(run: () => Promise<T>): Promise<T> {
    // Dexie follows native awaits only out of a function that is itself async.
    return this.db.transaction('rw', this.db.tables, async () => run())
  }

  private async write(change: Change, doneDrafts: readonly string[]): Promise<Committed> {
    const applier = new Applier(this.db, change, this.surroundings.ids, false)
    for (const operation of change.operations) await applier.apply(operation)
    return this.record(change, applier, doneDrafts)
  }

  /** Records what was applied, with all that follows from it. */
  private async record(change: Change, applier: Applier, doneDrafts: readonly string[]): Promise<Committed> {
    const links = await updateLinkStates(this.db, applier)
    await sealApplied(this.db, applier.applied, applier.written, this.sealing())
    await this.db.drafts.bulkDelete([...doneDrafts])
    const last = await this.db.changes.orderBy('sequence').last()
    const stored = {
      ...change,
      operations: applier.applied.map(withoutBulk),
      sequence: (last?.sequence ?? 0) + 1,
    }
    await this.db.changes.add(stored)
    return { change: stored, inverse: this.makeChange('undo', change.id, applier.inverse), links }
  }

  private async applyReversed(applier: Applier, change: Change): Promise<void> {
    const { ids } = this.surroundings
    for (const operation of [...change.operations].reverse()) {
      const reversed = await this.reverseNow(operation, change, ids)
      if (reversed) await applier.apply(reversed)
    }
  }

  /** What was set later than a mark stays when the mark is taken back. */
  private async isNewest(mark: Mark): Promise<boolean> {
    const all = await this.db.marks.where('entry').equals(mark.entry).sortBy('id')
    return all.filter((other) => isOfSame(other, mark)).at(-1)?.id === mark.id
  }

  private async reverseNow(operation: Operation, change: Change, ids: IdMaker): Promise<Operation | null> {
    if (operation.op === 'text') {
      if (operation.node.kind === 'entry' && operation.fromRevision === null) return null
      return reverseText(operation, await revisionsOf(this.db, operation.node.id), ids)
    }
    const record = operation.op === 'put' ? operation.record : operation.before
    if (operation.table === 'marks' && !(await this.isNewest(record as Mark))) return null
    const present = await this.db.tableOf(operation.table).get(keyOf(operation.table, record))
    return operation.op === 'put'
      ? reversePut(operation, present, ids, change.at)
      : reverseRemove(operation, present)
  }
}

/**
 * Captures' texts and blobs' bytes stand once, in their own tables, and not again in the Change that put them there.
 * The Change that removes them holds them, so the past is whole at any time.
 */
function withoutBulk(operation: Operation): Operation {
  if (operation.op !== 'put') return operation
  if (operation.table === 'captures') return { ...operation, record: { ...operation.record, text: '' } }
  if (operation.table === 'blobs')
    return { ...operation, record: { ...operation.record, bytes: new Uint8Array() } }
  return operation
}
