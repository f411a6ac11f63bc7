/** Everything that the page's databases hold, read past the program, and the processes of a profile. */
import { existsSync, readdirSync, readFileSync, readlinkSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from '@playwright/test'

export type StoreDump = Readonly<Record<string, Readonly<Record<string, readonly unknown[]>>>>

/**
 * Every record of every database but the indexes for finding, which follow from them and are made anew. Drafts stand without
 * their window and their time: which window takes over the drafts of one that is gone is new at every start, and they are
 * saved once more when it closes.
 */
export async function dumpStore(page: Page): Promise<StoreDump> {
  const dump = await page.evaluate(async () => {
    const settled = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(new Error(String(request.error)))
      })
    const toPlain = (value: unknown): unknown => {
      if (value instanceof Uint8Array) return { bytes: [...value].join() }
      if (Array.isArray(value)) return value.map(toPlain)
      if (typeof value !== 'object' || value === null) return value
      return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, toPlain(inner)]))
    }
    const all: Record<string, Record<string, unknown[]>> = {}
    for (const { name = '' } of await indexedDB.databases()) {
      if (name.startsWith('stillroom-find-')) continue
      const database = await settled(indexedDB.open(name))
      const tables: Record<string, unknown[]> = {}
      for (const table of database.objectStoreNames)
        tables[table] = toPlain(
          await settled(database.transaction(table).objectStore(table).getAll()),
        ) as unknown[]
      database.close()
      all[name] = tables
    }
    return all
  })
  for (const tables of Object.values(dump))
    tables.drafts = (tables.drafts ?? []).map((draft) => ({
      ...(draft as object),
      key: '',
      window: '',
      saved: '',
    }))
  return dump
}

/** Ends every process that was started for a profile, at once. */
export function killAllOf(profile: string): void {
  for (const pid of pidsOf(profile))
    try {
      process.kill(pid, 'SIGKILL')
    } catch {
      // It has ended by itself.
    }
}

export function pidsOf(profile: string): number[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((pid) => lineOf(pid).includes(`--user-data-dir=${profile}`))
    .map(Number)
}

function lineOf(pid: string): string {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ')
  } catch {
    return ''
  }
}

/** Whether a program holds a profile at the moment: Chromium names its process in a link. */
export function isHeld(profile: string): boolean {
  try {
    const holder = readlinkSync(join(profile, 'SingletonLock'))
    return existsSync(`/proc/${holder.slice(holder.lastIndexOf('-') + 1)}`)
  } catch {
    return false
  }
}
