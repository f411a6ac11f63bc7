/** Where a trace starts: the things that stand for what a person points at. */
import { momentLabel } from '../../shared/export/labels.ts'
import type { LinkNode, Part, Range, Step } from '../../shared/lab/model.ts'
import type { Moment } from '../../shared/lab/moment.ts'
import { nameOfPart, rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import type { Spot } from '../../shared/provenance/follow.ts'
import type { Traced } from '../store/traced.ts'
import { loadLabel, loadOutlines, type NodeLabel, type TraceLab } from './labels.ts'

export interface TraceStart {
  /** What is traced, and what it is called. */
  readonly traced: Traced
  readonly label: NodeLabel
  /** The things that links are looked for at: a source with its captures, a step with its parts in reading order. */
  readonly nodes: readonly LinkNode[]
  /** The same with the places that are meant. */
  readonly spots: readonly Spot[]
  /** Of a version: what its parts were called in it, by their ids. */
  readonly names?: ReadonlyMap<string, string>
  /** Of a version: links of its parts that were made later have nothing to do with it. */
  readonly until?: Moment
  /** The words that are meant where it is not all of the text; null for all. */
  readonly words: string | null
}

/** @throws Error where the store cannot be read */
export async function loadStart(lab: TraceLab, traced: Traced): Promise<TraceStart> {
  switch (traced.kind) {
    case 'step':
      return startOfStep(lab, traced)
    case 'procedure':
      return startOfProcedure(lab, traced)
    case 'version':
      return startOfVersion(lab, traced)
    case 'source':
    case 'capture':
      return startOfSource(lab, traced)
    case 'entry':
    case 'part': {
      const label = await loadLabel(lab, traced)
      return startAt(traced, label, [{ kind: traced.kind, id: traced.id } as LinkNode], label.text)
    }
  }
}

/** What came of a source came of its captures, and of those of the sources that were found to be the same. */
async function startOfSource(
  lab: TraceLab,
  traced: Extract<Traced, { kind: 'source' | 'capture' }>,
): Promise<TraceStart> {
  const { queries } = lab
  const own: LinkNode =
    traced.kind === 'source' ? { kind: 'source', id: traced.id } : { kind: 'capture', id: traced.id }
  const label = await loadLabel(lab, own)
  if (traced.kind === 'capture' && traced.ranges) {
    const text = (await queries.findCapture(traced.id))?.text ?? null
    return startAt(traced, label, [own], text)
  }
  const source = traced.kind === 'source' ? traced.id : (await queries.captureHead(traced.id))?.source
  if (!source) return startAt(traced, label, [own], null)
  const captures = await queries.capturesOf(source)
  const sources = new Set([source, ...captures.map((head) => head.source)])
  const nodes: LinkNode[] = [
    ...[...sources].map((id) => ({ kind: 'source', id }) as const),
    ...captures.map(({ id }) => ({ kind: 'capture', id }) as const),
  ]
  return startAt(traced, label, nodes, null)
}

async function startOfStep(lab: TraceLab, traced: Extract<Traced, { kind: 'step' }>): Promise<TraceStart> {
  const step = await lab.queries.trace.findStep(traced.id)
  if (!step) return startAt(traced, goneLabel('step', 'A step that was removed'), [], null)
  const outline = (await loadOutlines(lab, [step])).get(step.procedure)!
  const number = outline.numberOf(step.id)
  const label: NodeLabel = {
    ...{ kind: 'step', text: null, state: 'standing', projects: outline.projects },
    name: number === '' ? 'A section' : `Step ${number}`,
    detail: outline.title,
  }
  return startAt(traced, label, nodesOf(await lab.queries.trace.partsOfSteps([step.id])), null)
}

async function startOfProcedure(
  lab: TraceLab,
  traced: Extract<Traced, { kind: 'procedure' }>,
): Promise<TraceStart> {
  const procedure = await lab.queries.findProcedure(traced.id)
  if (!procedure)
    return startAt(traced, goneLabel('procedure', 'A procedure that is not in this lab'), [], null)
  const outline = (await loadOutlines(lab, [{ procedure: procedure.id }])).get(procedure.id)!
  const label: NodeLabel = {
    ...{ kind: 'procedure', text: null, state: 'standing', projects: outline.projects },
    name: outline.title,
    detail: `The procedure as a whole, begun ${momentLabel(procedure.created)}`,
  }
  const parts = await lab.queries.trace.partsOfProcedure(procedure.id)
  return startAt(traced, label, nodesOf(inOrder(parts, outline.steps)), null)
}

async function startOfVersion(
  lab: TraceLab,
  traced: Extract<Traced, { kind: 'version' }>,
): Promise<TraceStart> {
  const version = await lab.queries.trace.findVersion(traced.id)
  if (!version) return startAt(traced, goneLabel('version', 'A version that is not in this lab'), [], null)
  const outline = (await loadOutlines(lab, [version])).get(version.procedure)!
  const label: NodeLabel = {
    ...{ kind: 'version', text: version.line, state: 'standing', projects: outline.projects },
    name: `Version ${version.number}`,
    detail: `${outline.title}, marked ${momentLabel(version.marked)}`,
  }
  const numbers = rowNumbers(version.steps)
  const parts = inOrder(
    version.parts.map(({ part }) => part),
    version.steps,
  )
  const names = parts.map(({ id, kind, step }): [string, string] => [
    id,
    nameOfPart(kind, step === null ? '' : (numbers.get(step) ?? '')),
  ])
  const start = startAt(traced, label, nodesOf(parts), null)
  return { ...start, names: new Map(names), until: version.marked }
}

/** Parts in reading order, the procedure's own first. */
function inOrder(parts: readonly Part[], steps: readonly Step[]): Part[] {
  const order = new Map(steps.map(({ id, position }) => [id as string, position]))
  const place = ({ step }: Part): string => (step === null ? '' : (order.get(step) ?? ''))
  return [...parts].sort((a, b) => (place(a) === place(b) ? 0 : place(a) < place(b) ? -1 : 1))
}

const goneLabel = (kind: NodeLabel['kind'], name: string): NodeLabel => ({
  ...{ kind, name, detail: '', text: null, projects: [], state: 'gone' },
})

const nodesOf = (parts: readonly Part[]): LinkNode[] => parts.map(({ id }) => ({ kind: 'part', id }))

function startAt(
  traced: Traced,
  label: NodeLabel,
  nodes: readonly LinkNode[],
  text: string | null,
): TraceStart {
  const ranges = 'ranges' in traced && text !== null ? within(traced.ranges ?? [], text) : []
  const places = ranges.length > 0 ? ranges : 'all'
  return {
    ...{ traced, label, nodes },
    spots: nodes.map(({ id }) => ({ node: id, places })),
    words: ranges.length > 0 ? ranges.map(({ start, end }) => text!.slice(start, end)).join('\n') : null,
  }
}

/** Such of the ranges as lie in the text: it may have been shortened since they were chosen. */
const within = (ranges: readonly Range[], { length }: string): Range[] =>
  ranges.filter(({ start, end }) => start < end && end <= length)
