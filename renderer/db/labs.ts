/** The registry of labs, in a database of its own beside theirs, and the settings of the program as a whole. */
import Dexie, { type Table } from 'dexie'
import type { LabId } from '../../shared/lab/ids.ts'
import type { Lab } from '../../shared/lab/model.ts'
import type { Setting, StorageFactory } from './schema.ts'

class RegistryDatabase extends Dexie {
  declare readonly labs: Table<Lab, string>
  declare readonly settings: Table<Setting, string>

  constructor(storage: StorageFactory) {
    super('stillroom', { ...storage, chromeTransactionDurability: 'strict' })
    this.version(1).stores({ labs: 'id', settings: 'key' })
  }
}

export interface RegistryDump {
  readonly labs: readonly Lab[]
  readonly settings: readonly Setting[]
}

export class LabRegistry {
  private readonly db: RegistryDatabase

  constructor(storage: StorageFactory) {
    this.db = new RegistryDatabase(storage)
  }

  async labs(): Promise<Lab[]> {
    return this.db.labs.orderBy('id').toArray()
  }

  async keep(lab: Lab): Promise<void> {
    await this.db.labs.put(lab)
  }

  async forget(id: LabId): Promise<void> {
    await this.db.labs.delete(id)
  }

  async findSetting(key: string): Promise<unknown> {
    return (await this.db.settings.get(key))?.value
  }

  async keepSetting(key: string, value: unknown): Promise<void> {
    await this.db.settings.put({ key, value })
  }

  /** All that the registry holds, as plain values. */
  async dump(): Promise<RegistryDump> {
    const { labs, settings } = this.db
    return this.db.transaction('r', labs, settings, async () => ({
      labs: await labs.toArray(),
      settings: await settings.toArray(),
    }))
  }

  /** Puts what `dump` gave into an empty registry. */
  async fill({ labs, settings }: RegistryDump): Promise<void> {
    await this.db.transaction('rw', this.db.labs, this.db.settings, async () => {
      await this.db.labs.bulkPut([...labs])
      await this.db.settings.bulkPut([...settings])
    })
  }

  close(): void {
    this.db.close()
  }
}
