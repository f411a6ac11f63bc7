/** Which window this is. Drafts belong to a window; those of windows that are no more are taken over by the next. */
import { isId, type IdMaker, type WindowId } from '../../shared/lab/ids.ts'

const KEY = 'stillroom window'
const lockOf = (id: string): string => `stillroom-window-${id}`

/**
 * This window's id, the same after a reload. It is held by a lock as long as the window lives, so that others can see
 * that it does; a copied tab, which brings a copied id along, finds the lock taken and gets a new one.
 */
export async function claimWindow(ids: IdMaker, storage: Storage, locks: LockManager): Promise<WindowId> {
  const kept = storage.getItem(KEY)
  if (isId<WindowId>(kept) && (await hold(locks, kept))) return kept
  const id = ids.make<WindowId>()
  await hold(locks, id)
  storage.setItem(KEY, id)
  return id
}

function hold(locks: LockManager, id: WindowId): Promise<boolean> {
  return new Promise((resolve) => {
    void locks.request(lockOf(id), { ifAvailable: true }, (lock) => {
      resolve(lock !== null)
      // Held until the window is gone.
      return lock === null ? undefined : new Promise<never>(() => undefined)
    })
  })
}

/** Says of a window's id whether the window lives. */
export async function livingWindows(locks: LockManager): Promise<(id: WindowId) => boolean> {
  const { held = [] } = await locks.query()
  const names = new Set(held.map((lock) => lock.name))
  return (id) => names.has(lockOf(id))
}
