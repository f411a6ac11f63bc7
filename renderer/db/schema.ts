/**
 * The tables of a lab in IndexedDB. One database for each lab, so that nothing can cross from one to another.
 *
 * A later schema version is added to `versions` with its upgrade; an old one is never edited, and every upgrade has a
 * test from a real old database.
 */
import Dexie, { type Table, type Transaction } from 'dexie'
import type { StoredChange, TableName, Tables } from '../../shared/lab/change.ts'
import type { Draft, LinkState, Revision, TextRecord } from '../../shared/lab/model.ts'

/** A named value that belongs to the lab but not to its past: pane widths, the person's name. */
export interface Setting {
  readonly key: string
  readonly value: unknown
}

/** What is stored beside the tables that Changes write. */
export interface DerivedTables {
  texts: TextRecord
  revisions: Revision
  linkStates: LinkState
  changes: StoredChange
  drafts: Draft
  settings: Setting
}

interface SchemaVersion {
  readonly version: number
  readonly stores: Record<string, string>
  readonly upgrade?: (transaction: Transaction) => Promise<void>
}

/** All versions from the first on. Dexie's index syntax; the first word is the primary key. */
export const versions: readonly SchemaVersion[] = [
  {
    version: 1,
    stores: {
      projects: 'id',
      blobs: 'sha256',
      sources: 'id, *projects',
      captures: 'id, source, sha256',
      entries: 'id, project',
      withdrawals: 'id, entry',
      procedures: 'id, project',
      steps: 'id, procedure',
      parts: 'id, procedure, step',
      links: 'id, newer.node.id, older.node.id',
      strikes: 'id',
      texts: 'node',
      revisions: 'id, [node+number]',
      linkStates: 'link, newer.node, older.node',
      changes: 'sequence, &id',
      drafts: 'key',
      settings: 'key',
    },
  },
]

/** Where a lab's database comes from; a test passes its own. */
export interface StorageFactory {
  readonly indexedDB: IDBFactory
  readonly IDBKeyRange: typeof IDBKeyRange
}

type AllTables = Tables & DerivedTables

/** The typed database of one lab. */
export class LabDatabase extends Dexie {
  declare readonly projects: Table<AllTables['projects'], string>
  declare readonly blobs: Table<AllTables['blobs'], string>
  declare readonly sources: Table<AllTables['sources'], string>
  declare readonly captures: Table<AllTables['captures'], string>
  declare readonly entries: Table<AllTables['entries'], string>
  declare readonly withdrawals: Table<AllTables['withdrawals'], string>
  declare readonly procedures: Table<AllTables['procedures'], string>
  declare readonly steps: Table<AllTables['steps'], string>
  declare readonly parts: Table<AllTables['parts'], string>
  declare readonly links: Table<AllTables['links'], string>
  declare readonly strikes: Table<AllTables['strikes'], string>
  declare readonly texts: Table<AllTables['texts'], string>
  declare readonly revisions: Table<AllTables['revisions'], string>
  declare readonly linkStates: Table<AllTables['linkStates'], string>
  declare readonly changes: Table<AllTables['changes'], number>
  declare readonly drafts: Table<AllTables['drafts'], string>
  declare readonly settings: Table<AllTables['settings'], string>

  constructor(name: string, storage: StorageFactory) {
    super(name, {
      indexedDB: storage.indexedDB,
      IDBKeyRange: storage.IDBKeyRange,
      // Only a strict transaction survives a power cut; it costs one fdatasync.
      chromeTransactionDurability: 'strict',
    })
    for (const { version, stores, upgrade } of versions) {
      const added = this.version(version).stores(stores)
      if (upgrade) added.upgrade(upgrade)
    }
  }

  /** The table that Changes write under this name. */
  tableOf<T extends TableName>(name: T): Table<Tables[T], string> {
    return this.table(name)
  }
}
