/** Reads all that a trace shows: links level by level, and what the things at their ends are called. */
import { nameOfPart, numberOf } from '../../shared/procedure/rows/numbers.ts'
import { momentLabel } from '../../shared/export/labels.ts'
import type { CaptureId, PartId, ProjectId, SourceId } from '../../shared/lab/ids.ts'
import type { LinkNode, PageStart, TextNodeId } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import {
  buildTrace,
  flattenTrace,
  type LinkRecords,
  type TraceDirection,
  type TraceHop,
} from '../../shared/provenance/trace.ts'
import type { OpenLab } from '../db/lab.ts'
import { loadLinks } from './loadLinks.ts'

/** What a thing is called in a trace. */
export interface NodeLabel {
  readonly kind: LinkNode['kind']
  /** For instance "2026-11-14 19:18:02 +01:00, action" or "Expect of step 4". */
  readonly name: string
  /** More about it: the procedure's title, the source's address. Empty where there is nothing to add. */
  readonly detail: string
  /** Its text as it stands now; null for sources and captures. */
  readonly text: string | null
  /** The projects that it belongs to. */
  readonly projects: readonly ProjectId[]
  /** It was taken back, or no longer stands. */
  readonly state: 'standing' | 'withdrawn' | 'gone'
  /** Of a capture of a paged document, where its pages begin. */
  readonly pages?: readonly PageStart[]
}

export interface LoadedTrace {
  readonly start: NodeLabel
  readonly back: readonly TraceHop[]
  readonly forward: readonly TraceHop[]
  /** By the node's id. */
  readonly labels: ReadonlyMap<string, NodeLabel>
}

type TraceLab = Pick<OpenLab, 'queries'>

/** The whole trace of a thing, both ways. */
export async function loadTrace(lab: TraceLab, node: LinkNode): Promise<LoadedTrace> {
  const starts = await startsOf(lab, node)
  const [back, forward] = await Promise.all([loadHops(lab, starts, 'back'), loadHops(lab, starts, 'forward')])
  const nodes = [...back, ...forward].flatMap((hop) => flattenTrace([hop])).map((hop) => hop.node)
  const labels = new Map<string, NodeLabel>()
  for (const one of [node, ...nodes]) if (!labels.has(one.id)) labels.set(one.id, await loadLabel(lab, one))
  return { start: labels.get(node.id)!, back, forward, labels }
}

async function loadHops(
  { queries }: TraceLab,
  starts: readonly LinkNode[],
  direction: TraceDirection,
): Promise<readonly TraceHop[]> {
  const records: LinkRecords = await loadLinks(queries, starts, direction)
  return buildTrace(records, starts, direction)
}

/** What came of a source came of its captures. */
async function startsOf({ queries }: TraceLab, node: LinkNode): Promise<LinkNode[]> {
  if (node.kind !== 'source' && node.kind !== 'capture') return [node]
  const source = node.kind === 'source' ? node.id : (await queries.captureHead(node.id))?.source
  if (!source) return [node]
  const captures = await queries.captureHeads([source])
  return [{ kind: 'source', id: source }, ...captures.map(({ id }) => ({ kind: 'capture', id }) as const)]
}

/** What one thing is called. */
export function loadLabel(lab: TraceLab, node: LinkNode): Promise<NodeLabel> {
  switch (node.kind) {
    case 'entry':
      return labelOfEntry(lab, node.id)
    case 'part':
      return labelOfPart(lab, node.id)
    case 'source':
      return labelOfSource(lab, 'source', node.id, '')
    case 'capture':
      return labelOfCapture(lab, node.id)
  }
}

function gone(kind: LinkNode['kind'], name: string): NodeLabel {
  return { kind, name, detail: '', text: null, projects: [], state: 'gone' }
}

async function textOf({ queries }: TraceLab, id: TextNodeId): Promise<string> {
  return (await queries.findText(id))?.text ?? ''
}

async function labelOfEntry(lab: TraceLab, id: TextNodeId): Promise<NodeLabel> {
  const entry = await lab.queries.findEntry(id)
  if (!entry) return gone('entry', 'An entry that is not in this lab')
  const isWithdrawn = (await lab.queries.withdrawnAmong([id])).has(id)
  return {
    kind: 'entry',
    name: `${momentLabel(entry.moment)}, ${entry.kind}`,
    detail: '',
    text: await textOf(lab, id),
    projects: [entry.project],
    state: isWithdrawn ? 'withdrawn' : 'standing',
  }
}

async function labelOfPart(lab: TraceLab, id: PartId): Promise<NodeLabel> {
  const part = await lab.queries.findPart(id)
  if (!part) return gone('part', 'A part that was removed')
  const procedure = await lab.queries.findProcedure(part.procedure)
  const { title, steps } = await lab.queries.outlineOf(part.procedure)
  return {
    kind: 'part',
    name: nameOfPart(part.kind, numberOf(steps, part.step)),
    detail: plainWords(title, 80) || 'Untitled procedure',
    text: await textOf(lab, id),
    projects: procedure ? [procedure.project] : [],
    state: 'standing',
  }
}

async function labelOfCapture(lab: TraceLab, id: CaptureId): Promise<NodeLabel> {
  const head = await lab.queries.captureHead(id)
  if (!head) return gone('capture', 'A source that is not in this lab')
  const label = await labelOfSource(lab, 'capture', head.source, `captured ${momentLabel(head.taken)}`)
  return head.pages.length === 0 ? label : { ...label, pages: head.pages }
}

async function labelOfSource(
  lab: TraceLab,
  kind: 'source' | 'capture',
  id: SourceId,
  captured: string,
): Promise<NodeLabel> {
  const source = await lab.queries.findSource(id)
  if (!source) return gone(kind, 'A source that is not in this lab')
  const { title, address, projects } = source
  return {
    kind,
    name: title.trim() || address || 'Untitled source',
    detail: [address ?? '', captured].filter(Boolean).join(', '),
    text: null,
    projects,
    state: 'standing',
  }
}
