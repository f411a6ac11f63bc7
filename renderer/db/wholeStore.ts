/** All databases of the program together, as rewriting the store needs them. */
import Dexie from 'dexie'
import { isId, type LabId } from '../../shared/lab/ids.ts'
import type { Lab } from '../../shared/lab/model.ts'
import { systemClock } from '../../shared/lab/moment.ts'
import { databaseNameOf } from './lab.ts'

/** Every lab that has a database, in the registry or not: a crash may have left one that nothing names. */
export async function labsOfStore(registered: readonly Lab[], storage: IDBFactory): Promise<Lab[]> {
  const names = new Set((await storage.databases()).flatMap(({ name }) => name ?? []))
  const known = registered.filter(({ id }) => names.has(databaseNameOf(id)))
  const prefix = databaseNameOf('' as LabId)
  const unnamed = [...names]
    .filter((name) => name.startsWith(prefix))
    .map((name) => name.slice(prefix.length))
    .filter((id): id is LabId => isId<LabId>(id) && registered.every((lab) => lab.id !== id))
    .map((id) => ({ id, name: 'A lab without a name', created: systemClock.now() }))
  return [...known, ...unnamed]
}

/** Deletes every database of this origin. Only while what they hold stands elsewhere. */
export async function deleteDatabases(storage: IDBFactory): Promise<void> {
  for (const { name } of await storage.databases()) if (name !== undefined) await Dexie.delete(name)
}
