/** Records of older versions of a lab as records of this one: for a lab that is opened, and for a lab file. */
import { headOf } from './capture-head.ts'
import type { Capture } from './model.ts'

/** All tables of a lab, by name. */
export type Dump = Readonly<Record<string, readonly unknown[]>>
type Fields = Readonly<Record<string, unknown>>

/** What version 2 says of records of which version 1 said nothing. A field that is there is left alone. */
const additions: Readonly<Record<string, Fields>> = {
  projects: { tags: [] },
  sources: {
    author: null,
    dated: null,
    bookmarked: null,
    tags: [],
    folders: [],
    pinned: false,
    setAside: false,
    remark: '',
    mergedInto: null,
  },
  captures: { wayIn: 'file', saved: null, pages: [], notes: [] },
}

/** Tables of version 1 whose records changed in version 2; the stored Changes hold such records too. */
export const changedInVersion2 = ['projects', 'sources', 'captures', 'changes'] as const

/**
 * One record of version 1 in the form of version 2.
 * @param wayIn how the source of a capture came in, where that is known; a capture had no such field
 */
export function toVersion2<T>(table: string, record: T, wayIn?: string): T {
  if (table === 'changes') return changeWith(record as Fields, additions, toVersion2) as T
  const added = additions[table]
  if (!added) return record
  const own = table === 'captures' && wayIn !== undefined ? { ...added, wayIn } : added
  return { ...own, ...record }
}

/** A stored Change with the records in it in their later form. */
function changeWith(
  change: Fields,
  added: Readonly<Record<string, Fields>>,
  upgrade: (table: string, record: unknown) => unknown,
): Fields {
  const operations = (change['operations'] as readonly Fields[]).map((operation) => {
    const table = operation['table']
    if (typeof table !== 'string' || !(table in added)) return operation
    const next: Record<string, unknown> = { ...operation }
    for (const field of ['record', 'before']) if (next[field]) next[field] = upgrade(table, next[field])
    return next
  })
  return { ...change, operations }
}

/** What version 3 says of records of which version 2 said nothing. A field that is there is left alone. */
const additionsOf3: Readonly<Record<string, Fields>> = {
  projects: { folder: null },
  folders: { holds: 'sources' },
  entries: { happened: null, under: null, place: null, ran: null, file: null },
  revisions: { blobs: [] },
}

/** Tables of version 2 whose records changed in version 3; the stored Changes hold such records too. */
export const changedInVersion3 = ['projects', 'folders', 'entries', 'revisions', 'drafts', 'changes'] as const

/** One record of version 2 in the form of version 3. */
export function toVersion3<T>(table: string, record: T): T {
  if (table === 'changes') return changeWith(record as Fields, additionsOf3, toVersion3) as T
  if (table === 'drafts')
    return (record as Fields)['owner'] === 'composer'
      ? { facts: additionsOf3['entries'], answers: null, ...record }
      : record
  const added = additionsOf3[table]
  return added ? { ...added, ...record } : record
}

/** The setting that has a lab's journals sealed when it is opened. */
export const unsealed = { key: 'unsealed', value: true } as const

/** All of a lab of version 2 in the form of version 3; its journals are still to be sealed. */
export function dumpToVersion3(dump: Dump): Dump {
  const upgraded: Record<string, readonly unknown[]> = Object.fromEntries(
    Object.entries(dump).map(([table, records]) => [
      table,
      records.map((record) => toVersion3(table, record)),
    ]),
  )
  return { ...upgraded, settings: [...(upgraded['settings'] ?? []), unsealed] }
}

/** What version 4 says of records of which version 3 said nothing. A field that is there is left alone. */
const additionsOf4: Readonly<Record<string, Fields>> = {
  procedures: { place: null },
  steps: { level: 'step', place: null, pointOfNoReturn: false },
  parts: { file: null },
}

/** Tables of version 3 whose records changed in version 4; the stored Changes hold such records too. */
export const changedInVersion4 = ['procedures', 'steps', 'parts', 'changes'] as const

/** One record of version 3 in the form of version 4. */
export function toVersion4<T>(table: string, record: T): T {
  if (table === 'changes') return changeWith(record as Fields, additionsOf4, toVersion4) as T
  const added = additionsOf4[table]
  return added ? { ...added, ...record } : record
}

/** All of a lab of version 3 in the form of version 4. */
export function dumpToVersion4(dump: Dump): Dump {
  return Object.fromEntries(
    Object.entries(dump).map(([table, records]) => [
      table,
      records.map((record) => toVersion4(table, record)),
    ]),
  )
}

/** All of a lab of version 1 in the form of version 2. */
export function dumpToVersion2(dump: Dump): Dump {
  const waysIn = new Map(
    (dump['sources'] ?? []).map((source) => [(source as Fields)['id'], source as Fields]),
  )
  const wayInOf = (record: unknown): string | undefined =>
    waysIn.get((record as Fields)['source'])?.['wayIn'] as string | undefined
  const upgraded = Object.fromEntries(
    Object.entries(dump).map(([table, records]) => [
      table,
      records.map((record) => toVersion2(table, record, table === 'captures' ? wayInOf(record) : undefined)),
    ]),
  )
  return {
    ...upgraded,
    captureHeads: (upgraded['captures'] ?? []).map((capture) => headOf(capture as Capture)),
  }
}
