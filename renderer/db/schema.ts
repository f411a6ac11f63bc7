/**
 * The tables of a lab in IndexedDB. One database for each lab, so that nothing can cross from one to another.
 *
 * A later schema version is added to `versions` with its upgrade; an old one is never edited, and every upgrade has a
 * test from a real old database.
 */
import Dexie, { type Table, type Transaction } from 'dexie'
import type { StoredChange, TableName, Tables } from '../../shared/lab/change.ts'
import type { Capture, CaptureHead, Draft, LinkState, Revision, TextRecord } from '../../shared/lab/model.ts'
import type { Seal, SealSalts } from '../../shared/journal/seal/model.ts'
import { headOf } from '../../shared/lab/capture-head.ts'
import {
  changedInVersion2,
  changedInVersion3,
  changedInVersion4,
  toVersion2,
  toVersion3,
  toVersion4,
  unsealed,
} from '../../shared/lab/upgrade.ts'

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
  captureHeads: CaptureHead
  seals: Seal
  salts: SealSalts
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
  {
    version: 2,
    stores: {
      sources: 'id, *projects, *folders, mergedInto',
      folders: 'id, parent',
      entryTags: 'entry',
      verdicts: 'id, node.id',
      captureHeads: 'id, source, sha256',
    },
    upgrade: upgradeToVersion2,
  },
  {
    version: 3,
    stores: {
      projects: 'id, folder',
      machines: 'id',
      entries: 'id, project, place.machine, file.blob',
      marks: 'id, entry, says.set.machine, says.set.blob',
      revisions: 'id, [node+number], *blobs',
      seals: 'id, [project+number], of.id',
      salts: 'seal',
    },
    upgrade: upgradeToVersion3,
  },
  {
    version: 4,
    stores: {
      procedures: 'id, project, place.machine',
      steps: 'id, procedure, place.machine',
      parts: 'id, procedure, step, file.blob',
      parameters: 'id, procedure',
      versions: 'id, [procedure+number]',
      remarks: 'id, procedure',
      silences: 'id, procedure',
      leftOut: 'id, procedure, entry',
      fetches: 'id, procedure',
    },
    upgrade: upgradeToVersion4,
  },
]

async function renewRecords(
  transaction: Transaction,
  tables: readonly string[],
  renew: (table: string, record: object) => object,
): Promise<void> {
  for (const name of tables)
    await transaction
      .table(name)
      .toCollection()
      .modify((record: object, ref) => {
        ref.value = renew(name, record)
      })
}

async function upgradeToVersion4(transaction: Transaction): Promise<void> {
  await renewRecords(transaction, changedInVersion4, toVersion4)
}

async function upgradeToVersion3(transaction: Transaction): Promise<void> {
  await renewRecords(transaction, changedInVersion3, toVersion3)
  // Sealed as soon as the lab is open, since salts need chance.
  await transaction.table('settings').put(unsealed)
}

async function upgradeToVersion2(transaction: Transaction): Promise<void> {
  const waysIn = new Map<string, string>()
  await transaction.table('sources').each((source: { id: string; wayIn: string }) => {
    waysIn.set(source.id, source.wayIn)
  })
  for (const name of changedInVersion2)
    await transaction
      .table(name)
      .toCollection()
      .modify((record: { source?: string }, ref) => {
        ref.value = toVersion2(name, record, waysIn.get(record.source ?? ''))
      })
  const heads = transaction.table('captureHeads')
  for (const id of await transaction.table('captures').toCollection().primaryKeys())
    await heads.put(headOf((await transaction.table('captures').get(id)) as Capture))
}

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
  declare readonly machines: Table<AllTables['machines'], string>
  declare readonly sources: Table<AllTables['sources'], string>
  declare readonly captures: Table<AllTables['captures'], string>
  declare readonly folders: Table<AllTables['folders'], string>
  declare readonly entries: Table<AllTables['entries'], string>
  declare readonly withdrawals: Table<AllTables['withdrawals'], string>
  declare readonly marks: Table<AllTables['marks'], string>
  declare readonly entryTags: Table<AllTables['entryTags'], string>
  declare readonly verdicts: Table<AllTables['verdicts'], string>
  declare readonly procedures: Table<AllTables['procedures'], string>
  declare readonly steps: Table<AllTables['steps'], string>
  declare readonly parts: Table<AllTables['parts'], string>
  declare readonly parameters: Table<AllTables['parameters'], string>
  declare readonly versions: Table<AllTables['versions'], string>
  declare readonly remarks: Table<AllTables['remarks'], string>
  declare readonly silences: Table<AllTables['silences'], string>
  declare readonly leftOut: Table<AllTables['leftOut'], string>
  declare readonly fetches: Table<AllTables['fetches'], string>
  declare readonly links: Table<AllTables['links'], string>
  declare readonly strikes: Table<AllTables['strikes'], string>
  declare readonly texts: Table<AllTables['texts'], string>
  declare readonly revisions: Table<AllTables['revisions'], string>
  declare readonly linkStates: Table<AllTables['linkStates'], string>
  declare readonly captureHeads: Table<AllTables['captureHeads'], string>
  declare readonly seals: Table<AllTables['seals'], string>
  declare readonly salts: Table<AllTables['salts'], string>
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
