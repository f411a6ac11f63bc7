/** Reads what a procedure's parts rest on, also where it belongs to other projects of the lab. */
import type { LinkNode } from '../../../shared/lab/model.ts'
import type { CaptureId, EntryId, SourceId } from '../../../shared/lab/ids.ts'
import type { LinkRecords } from '../../../shared/provenance/trace.ts'
import type { Queries } from '../../db/queries.ts'
import { loadLinks } from '../../trace/loadLinks.ts'
import type { ExportRecords } from './exportInput.ts'
import type { ShownProcedure } from './shown.ts'

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends ReadonlyMap<infer A, infer B> ? Map<A, B> : T[K] }

/** Everything that `toExportInput` needs. */
export async function readExportRecords(queries: Queries, shown: ShownProcedure): Promise<ExportRecords> {
  const parts = [...shown.own, ...shown.steps.flatMap((step) => step.parts)].map(({ part }) => part.id)
  const starts = parts.map((id): LinkNode => ({ kind: 'part', id }))
  const links = await loadLinks(queries, starts, 'back')
  const olders = olderNodes(links)
  const idsOf = (kind: LinkNode['kind']): string[] =>
    olders.filter((node) => node.kind === kind).map(({ id }) => id)
  const records: Mutable<ExportRecords> = {
    links,
    entries: new Map(),
    withdrawn: await queries.withdrawnAmong(idsOf('entry')),
    captures: new Map(),
    sources: new Map(),
  }
  for (const id of idsOf('entry')) await readEntry(queries, id as EntryId, records)
  for (const id of idsOf('capture')) await readCapture(queries, id as CaptureId, records)
  for (const id of idsOf('source')) await readSource(queries, id as SourceId, records)
  return records
}

function olderNodes({ links }: LinkRecords): LinkNode[] {
  const nodes = [...links.values()].map(({ older }) => older.node)
  return [...new Map(nodes.map((node) => [node.id, node])).values()]
}

async function readEntry(queries: Queries, id: EntryId, records: Mutable<ExportRecords>): Promise<void> {
  const [entry, text] = await Promise.all([queries.findEntry(id), queries.findText(id)])
  if (entry && text) records.entries.set(id, { entry, text: text.text })
}

async function readCapture(queries: Queries, id: CaptureId, records: Mutable<ExportRecords>): Promise<void> {
  const head = await queries.captureHead(id)
  if (!head) return
  records.captures.set(id, { source: head.source, taken: head.taken, pages: head.pages })
  await readSource(queries, head.source, records)
}

async function readSource(queries: Queries, id: SourceId, records: Mutable<ExportRecords>): Promise<void> {
  if (records.sources.has(id)) return
  const source = await queries.findSource(id)
  if (!source) return
  const newest = await queries.findNewestCapture(id)
  records.sources.set(id, { source, taken: newest?.taken ?? null })
}
