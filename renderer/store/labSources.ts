/**
 * All sources of the lab with what sorts them, whichever project uses them. Read whole once, then brought up to date
 * Change by Change. Texts are not among it.
 */
import type { StoredChange } from '../../shared/lab/change.ts'
import type { Capture, CaptureHead, Folder, Link, Source } from '../../shared/lab/model.ts'
import type { SourceRecords } from '../db/queries.ts'

export { standingSource } from '../../shared/sources/standing.ts'

export interface LabSources {
  /** Those that were merged into others too. */
  readonly sources: ReadonlyMap<string, Source>
  readonly heads: ReadonlyMap<string, CaptureHead>
  readonly folders: ReadonlyMap<string, Folder>
  /** For ids of sources and captures: how many newer things of any project came from it. None where it is absent. */
  readonly uses: ReadonlyMap<string, number>
  readonly sequence: number
}

/** The value of what was read of a lab. */
export function toLabSources(read: SourceRecords): LabSources {
  const uses = new Map<string, number>()
  for (const id of read.used) uses.set(id, (uses.get(id) ?? 0) + 1)
  return {
    sources: new Map(read.sources.map((source) => [source.id, source])),
    heads: new Map(read.heads.map((head) => [head.id, head])),
    folders: new Map(
      read.folders.filter(({ holds }) => holds === 'sources').map((folder) => [folder.id, folder]),
    ),
    uses,
    sequence: read.sequence,
  }
}

/**
 * The value after some Changes.
 * @param heads the captures of all sources that the Changes touched, as they stand now
 */
export function advanceLabSources(
  before: LabSources,
  changes: readonly StoredChange[],
  heads: readonly CaptureHead[],
): LabSources {
  const own = changes.flatMap(({ operations }) => operations).filter((one) => one.op !== 'text')
  const touched = new Set(own.map(({ table }) => table))
  const sequence = changes.at(-1)?.sequence ?? before.sequence
  // Maps keep their identity where nothing in them changed, so that lists are not drawn anew for an entry.
  const sources = touched.has('sources') ? new Map(before.sources) : before.sources
  const captures = touched.has('captures') ? new Map(before.heads) : before.heads
  const folders = touched.has('folders') ? new Map(before.folders) : before.folders
  const uses = touched.has('links') ? new Map(before.uses) : before.uses
  for (const operation of own) {
    const isPut = operation.op === 'put'
    const record = isPut ? operation.record : operation.before
    if (operation.table === 'sources') set(sources, record as Source, isPut)
    else if (operation.table === 'folders') {
      if ((record as Folder).holds === 'sources') set(folders, record as Folder, isPut)
    } else if (operation.table === 'captures' && !isPut)
      (captures as Map<string, CaptureHead>).delete((record as Capture).id)
    else if (operation.table === 'links') count(uses, record as Link, isPut ? 1 : -1)
  }
  if (touched.has('captures')) for (const head of heads) set(captures, head, true)
  return { sources, heads: captures, folders, uses, sequence }
}

function set<T extends { readonly id: string }>(
  map: ReadonlyMap<string, T>,
  record: T,
  isPut: boolean,
): void {
  const writable = map as Map<string, T>
  if (isPut) writable.set(record.id, record)
  else writable.delete(record.id)
}

function count(uses: ReadonlyMap<string, number>, { newer, older }: Link, by: number): void {
  if (newer.node.kind === 'capture' || (older.node.kind !== 'capture' && older.node.kind !== 'source')) return
  const now = (uses.get(older.node.id) ?? 0) + by
  const writable = uses as Map<string, number>
  if (now > 0) writable.set(older.node.id, now)
  else writable.delete(older.node.id)
}
