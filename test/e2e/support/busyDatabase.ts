/** A database that is slow to answer, as on a busy machine. */
import type { Page } from '@playwright/test'

/**
 * Keeps the labs' databases busy, each by a transaction over all of it, so that whatever the program reads or writes waits.
 * @returns how to let go
 */
export async function holdDatabase(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(async () => {
    const held = window as { letGo?: boolean }
    held.letGo = false
    const hold = async (name: string): Promise<void> => {
      const opening = indexedDB.open(name)
      await new Promise((resolve) => (opening.onsuccess = resolve))
      const db = opening.result
      const transaction = db.transaction([...db.objectStoreNames], 'readwrite')
      transaction.oncomplete = () => db.close()
      await new Promise<void>((resolve) => {
        const goOn = (): void => {
          resolve()
          if (!held.letGo) transaction.objectStore('texts').count().onsuccess = goOn
        }
        transaction.objectStore('texts').count().onsuccess = goOn
      })
    }
    const names = (await indexedDB.databases()).map(({ name = '' }) => name)
    await Promise.all(names.filter((name) => name.startsWith('stillroom-lab-')).map(hold))
  })
  return () => page.evaluate(() => void ((window as { letGo?: boolean }).letGo = true))
}
