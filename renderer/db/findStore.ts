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
  /** How often text had been struck out when it was kept. */
  readonly struck: unknown
  readonly segments: ReadonlyMap<number, Uint8Array>
  readonly meaning: unknown
  readonly places: ReadonlyMap<number, Places>
}

const HEAD = 'head'
const STRUCK = 'struck'
const MEANING = 'meaning'
const segmentKey = (name: number | ''): string => `segment ${name}`
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
    // Whoever deletes it does so for good: it must not be made anew by the next write.
    this.on('versionchange', () => this.close({ disableAutoOpen: true }))
  }
}

export class FindStore {
  private db: FindDatabase

  constructor(
    private readonly lab: LabId,
    private readonly storage: StorageFactory,
  ) {
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
      struck: all.find(({ key }) => key === STRUCK)?.value,
      segments: numbered('segment'),
      meaning: all.find(({ key }) => key === MEANING)?.value ?? null,
      places: numbered('places'),
    }
  }

  /**
   * Writes what changed. Segments first, one by one; with the head, all of it counts at once.
   * @param struck how often text had been struck out before
   * @param mayGoOn asked before each write
   * @returns false where it was not to go on; then what was kept before still counts
   */
  async keep(
    { head, put }: StoredStep,
    struck: number,
    mayGoOn: () => Promise<boolean> = () => Promise.resolve(true),
  ): Promise<boolean> {
    for (const { name, bytes } of put) {
      if (!(await mayGoOn())) return false
      await this.db.kept.put({ key: segmentKey(name), value: bytes })
    }
    if (!(await mayGoOn())) return false
    const named = new Set(head.segments.map(({ name }) => segmentKey(name)))
    await this.db.transaction('rw', this.db.kept, async () => {
      const all = await this.db.kept.where('key').startsWith(segmentKey('')).primaryKeys()
      // Also what an end in the middle of writing left behind.
      await this.db.kept.bulkDelete(all.filter((key) => !named.has(key)))
      await this.db.kept.bulkPut([
        { key: HEAD, value: head },
        { key: STRUCK, value: struck },
      ])
    })
    return true
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

  /** Makes an empty one in the place of one that cannot be used. */
  async remake(): Promise<void> {
    await this.destroy()
    this.db = new FindDatabase(this.lab, this.storage)
    await this.db.open()
  }
}

/** The name of the IndexedDB database with a lab's index. */
export function findDatabaseNameOf(lab: LabId): string {
  return `stillroom-find-${lab}`
}
