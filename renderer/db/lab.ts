/** An open lab: everything that the rest of the program may do with its database. */
import { liveQuery } from 'dexie'
import type { Surroundings } from '../../shared/lab/acts.ts'
import type { LabId, ProjectId } from '../../shared/lab/ids.ts'
import type { StoredChange } from '../../shared/lab/change.ts'
import type { Draft, LinkState, TextRecord } from '../../shared/lab/model.ts'
import { unsealed } from '../../shared/lab/upgrade.ts'
import { isSame } from '../../shared/lab/fields.ts'
import { Committer } from './commit.ts'
import { FindStore } from './findStore.ts'
import { deriveAll } from './linkStates.ts'
import { Queries } from './queries.ts'
import { withRefusals, type CommitFailure } from './refusal.ts'
import { LabDatabase, type StorageFactory } from './schema.ts'
import { sealedJournalOf, sealLate, type SealedJournal } from './sealing.ts'
import { countPlaces } from './strike.ts'

export class OpenLab {
  readonly queries: Queries
  readonly committer: Committer
  private readonly db: LabDatabase

  private constructor(
    readonly id: LabId,
    private readonly storage: StorageFactory,
    readonly surroundings: Surroundings,
  ) {
    this.db = new LabDatabase(databaseNameOf(id), storage)
    this.queries = new Queries(this.db)
    this.committer = new Committer(this.db, surroundings)
  }

  /** Opens a lab's database, making it where it does not exist and upgrading it where it is old. */
  static async open(id: LabId, storage: StorageFactory, surroundings: Surroundings): Promise<OpenLab> {
    const lab = new OpenLab(id, storage, surroundings)
    await lab.db.open()
    await lab.sealLate()
    return lab
  }

  close(): void {
    this.db.close()
  }

  /**
   * Keeps text that is being typed. The one write beside commit; overwrites the draft of the same key.
   * @returns why it was not kept, for instance a full disk
   */
  saveDraft(draft: Draft): Promise<{ ok: true; value: unknown } | CommitFailure> {
    return withRefusals(() => this.db.drafts.put(draft))
  }

  dropDraft(key: string): Promise<{ ok: true; value: unknown } | CommitFailure> {
    return withRefusals(() => this.db.drafts.delete(key))
  }

  async findSetting(key: string): Promise<unknown> {
    return (await this.db.settings.get(key))?.value
  }

  async keepSetting(key: string, value: unknown): Promise<void> {
    await this.db.settings.put({ key, value })
  }

  /** In how many texts the words stand now; shown before they are struck out. */
  countPlaces(words: string): Promise<number> {
    return countPlaces(this.db, words)
  }

  /**
   * Calls back with the number of the last Change, at first and whenever any window committed one.
   * @returns how to stop
   */
  onSequence(listen: (sequence: number) => void, onError: (error: unknown) => void): () => void {
    const subscription = liveQuery(
      async () => (await this.db.changes.orderBy('sequence').last())?.sequence ?? 0,
    ).subscribe({ next: listen, error: onError })
    return () => subscription.unsubscribe()
  }

  /**
   * Makes the derived tables anew from links, captures and revisions.
   * @returns whether they were as they should be
   */
  async rebuild(): Promise<boolean> {
    return this.db.transaction('rw', this.db.tables, async () => {
      const { texts, linkStates, captureHeads } = await deriveAll(this.db)
      const kept = {
        texts: await this.db.texts.toArray(),
        linkStates: await this.db.linkStates.toArray(),
        captureHeads: await this.db.captureHeads.toArray(),
      }
      const wasRight =
        isSame(sortedTexts(texts), sortedTexts(kept.texts)) &&
        isSame(sortedStates(linkStates), sortedStates(kept.linkStates)) &&
        isSame(captureHeads, kept.captureHeads)
      await this.db.texts.clear()
      await this.db.texts.bulkAdd(texts)
      await this.db.linkStates.clear()
      await this.db.linkStates.bulkAdd(linkStates)
      await this.db.captureHeads.clear()
      await this.db.captureHeads.bulkAdd(captureHeads)
      return wasRight
    })
  }

  /** Every table whole, for the lab file. Keys are table names. */
  dump(): Promise<Record<string, unknown[]>> {
    return this.db.transaction('r', this.db.tables, async () => {
      const dump: Record<string, unknown[]> = {}
      for (const table of this.db.tables) dump[table.name] = await table.toArray()
      return dump
    })
  }

  /** All Changes in order, with what holds of links and the texts of captures by their ids. */
  past(): Promise<{ changes: StoredChange[]; linkStates: LinkState[]; captures: Map<string, string> }> {
    const { changes, linkStates, captures } = this.db
    return this.db.transaction('r', changes, linkStates, captures, async () => ({
      changes: await changes.orderBy('sequence').toArray(),
      linkStates: await linkStates.toArray(),
      captures: new Map((await captures.toArray()).map(({ id, text }) => [id, text])),
    }))
  }

  /** Whether nothing was ever recorded here. */
  async isEmpty(): Promise<boolean> {
    return (await this.db.changes.count()) === 0
  }

  /**
   * Fills an empty lab with what `dump` gave.
   * @throws Error when the lab is not empty
   */
  fill(dump: Readonly<Record<string, readonly unknown[]>>): Promise<void> {
    return this.db.transaction('rw', this.db.tables, async () => {
      if ((await this.db.changes.count()) > 0) throw new Error('a lab is filled only while it is empty')
      for (const table of this.db.tables) await table.bulkPut([...(dump[table.name] ?? [])])
      await sealLate(this.db, this.sealing())
    })
  }

  /** A project's journal with its seals, to be checked or taken out. */
  sealedJournal(project: ProjectId): Promise<SealedJournal> {
    return this.db.transaction('r', this.db.tables, () => sealedJournalOf(this.db, project))
  }

  private async sealLate(): Promise<void> {
    if (await this.db.settings.get(unsealed.key))
      await this.db.transaction('rw', this.db.tables, () => sealLate(this.db, this.sealing()))
  }

  private sealing() {
    const { clock, randomBytes } = this.surroundings
    return { at: clock.now(), randomBytes }
  }

  /** Deletes the lab's database. There is no way back but an exported file. */
  async destroy(): Promise<void> {
    await new FindStore(this.id, this.storage).destroy()
    await this.db.delete()
  }
}

const sortedTexts = (texts: TextRecord[]): TextRecord[] => texts.sort((a, b) => (a.node < b.node ? -1 : 1))
const sortedStates = (states: LinkState[]): LinkState[] => states.sort((a, b) => (a.link < b.link ? -1 : 1))

/** The name of a lab's IndexedDB database. */
export function databaseNameOf(id: LabId): string {
  return `stillroom-lab-${id}`
}
