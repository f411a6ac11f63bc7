/**
 * Where the index for finding is kept between starts: a database beside the lab's own. It is derived and can be made anew, so
 * that it stands in no lab file, no transaction of the lab waits for it, and rewriting the store leaves it behind.
 */
import Dexie, { type Table } from 'dexie'
import type { LabId } from '../../shared/lab/ids.ts'
import type { StoredHead, StoredStep } from '../../shared/find/index/stored.ts'
import type { MeaningStep } from '../../shared/find/meaning/lab-meaning.ts'
import type { Meaning, Places } from '../../shared/find/meaning/meaning.ts'
import type { StorageFactory } from './schema.ts'

interface Kept {
  readonly key: string
  readonly value: unknown
}

/** What was found, unproven: the index is built anew where it does not fit together. */
export interface FoundIndex {
  readonly head: StoredHead | null
  readonly segments: ReadonlyMap<number, Uint8Array>
  readonly meaning: unknown
  readonly places: ReadonlyMap<number, Places>
}

const HEAD = 'head'
const MEANING = 'meaning'
const segmentKey = (name: number): string => `segment ${name}`
const placesKey = (name: number): string => `places ${name}`

class FindDatabase extends Dexie {
  declare readonly kept: Table<Kept, string>

  constructor(lab: LabId, storage: StorageFactory) {
    super(findDatabaseNameOf(lab), {
      indexedDB: storage.indexedDB,
      IDBKeyRange: storage.IDBKeyRange,
      // What a power cut takes is caught up at the next start.
      chromeTransactionDurability: 'relaxed',
    })
    this.version(1).stores({ kept: 'key' })
  }
}

export class FindStore {
  private readonly db: FindDatabase

  constructor(lab: LabId, storage: StorageFactory) {
    this.db = new FindDatabase(lab, storage)
  }

  /** All that is kept, read in one transaction. */
  async read(): Promise<FoundIndex> {
    const all = await this.db.kept.toArray()
    const numbered = <T>(word: string): Map<number, T> =>
      new Map(
        all.flatMap(({ key, value }): [number, T][] =>
          key.startsWith(`${word} `) ? [[Number(key.slice(word.length + 1)), value as T]] : [],
        ),
      )
    return {
      head: (all.find(({ key }) => key === HEAD)?.value as StoredHead | undefined) ?? null,
      segments: numbered('segment'),
      meaning: all.find(({ key }) => key === MEANING)?.value ?? null,
      places: numbered('places'),
    }
  }

  /** Writes what changed, all or nothing. */
  keep({ head, put, remove }: StoredStep): Promise<void> {
    return this.db.transaction('rw', this.db.kept, async () => {
      await this.db.kept.bulkDelete(remove.map(segmentKey))
      await this.db.kept.bulkPut([
        ...put.map(({ name, bytes }) => ({ key: segmentKey(name), value: bytes })),
        { key: HEAD, value: head },
      ])
    })
  }

  keepMeaning({ meaning, put, remove }: MeaningStep): Promise<void> {
    const learnt: { key: string; value: Meaning }[] = meaning ? [{ key: MEANING, value: meaning }] : []
    return this.db.transaction('rw', this.db.kept, async () => {
      await this.db.kept.bulkDelete(remove.map(placesKey))
      await this.db.kept.bulkPut([
        ...put.map(({ name, places }) => ({ key: placesKey(name), value: places })),
        ...learnt,
      ])
    })
  }

  async clear(): Promise<void> {
    await this.db.kept.clear()
  }

  close(): void {
    this.db.close()
  }

  async destroy(): Promise<void> {
    await this.db.delete()
  }
}

/** The name of the IndexedDB database with a lab's index. */
export function findDatabaseNameOf(lab: LabId): string {
  return `stillroom-find-${lab}`
}
