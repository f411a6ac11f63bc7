/** What things are called in a trace. */
import { momentLabel } from '../../shared/export/labels.ts'
import { happenedOf } from '../../shared/journal/entry-facts.ts'
import type { ProcedureId, ProjectId } from '../../shared/lab/ids.ts'
import type {
  CaptureHead,
  Entry,
  LinkNode,
  Mark,
  PageStart,
  Part,
  Source,
  Step,
  TextNodeId,
  WayIn,
} from '../../shared/lab/model.ts'
import type { Moment } from '../../shared/lab/moment.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { nameOfPart, rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { wayInWords } from '../../shared/sources/waysIn.ts'
import type { OpenLab } from '../db/lab.ts'

/** What a thing is called in a trace. */
export interface NodeLabel {
  readonly kind: LinkNode['kind'] | 'step' | 'procedure' | 'version'
  /** For instance "2026-11-14 19:18:02 +01:00, action" or "Expect of step 4". */
  readonly name: string
  /** More about it: the procedure's title, the source's address and how it came in. Empty where there is nothing to add. */
  readonly detail: string
  /** Its text as it stands now; null for what has none of its own, and for captures. */
  readonly text: string | null
  /** The projects that it belongs to. */
  readonly projects: readonly ProjectId[]
  /** It was taken back, or no longer stands. */
  readonly state: 'standing' | 'withdrawn' | 'gone'
  /** Of a capture of a paged document, where its pages begin. */
  readonly pages?: readonly PageStart[]
}

export type Labels = ReadonlyMap<string, NodeLabel>
export type TraceLab = Pick<OpenLab, 'queries'>

/** What some things are called, by their ids. Each kind of record is read at once. */
export async function loadLabels(lab: TraceLab, nodes: readonly LinkNode[]): Promise<Labels> {
  const ids = (kind: LinkNode['kind']): string[] => [
    ...new Set(nodes.filter((node) => node.kind === kind).map(({ id }) => id as string)),
  ]
  const all = await Promise.all([
    labelsOfEntries(lab, ids('entry')),
    labelsOfParts(lab, ids('part')),
    labelsOfCaptures(lab, ids('capture')),
    labelsOfSources(lab, ids('source')),
  ])
  return new Map(all.flatMap((labels) => [...labels]))
}

/** What one thing is called. */
export async function loadLabel(lab: TraceLab, node: LinkNode): Promise<NodeLabel> {
  return (await loadLabels(lab, [node])).get(node.id)!
}

type Labelled = [string, NodeLabel][]

function gone(kind: LinkNode['kind'], name: string): NodeLabel {
  return { kind, name, detail: '', text: null, projects: [], state: 'gone' }
}

async function labelsOfEntries({ queries }: TraceLab, ids: readonly string[]): Promise<Labelled> {
  const entries = new Map((await queries.trace.entries(ids)).map((entry) => [entry.id as string, entry]))
  const texts = await queries.trace.texts(ids as readonly TextNodeId[])
  const withdrawn = await queries.withdrawnAmong(ids)
  const marks = groupMarks(await queries.trace.marks(ids))
  return ids.map((id) => {
    const entry = entries.get(id)
    if (!entry) return [id, gone('entry', 'An entry that is not in this lab')]
    const label: NodeLabel = {
      kind: 'entry',
      name: `${momentLabel(entry.moment)}, ${entry.kind}`,
      detail: detailOfEntry(entry, marks.get(id)),
      text: texts.get(id) ?? '',
      projects: [entry.project],
      state: withdrawn.has(id) ? 'withdrawn' : 'standing',
    }
    return [id, label]
  })
}

/** Marks by the entry that they were set on, in their order. */
export function groupMarks(marks: readonly Mark[]): Map<string, Mark[]> {
  const groups = new Map<string, Mark[]>()
  for (const mark of marks) groups.set(mark.entry, [...(groups.get(mark.entry) ?? []), mark])
  return groups
}

function detailOfEntry(entry: Entry, marks: readonly Mark[] | undefined): string {
  const happened = happenedOf(entry, marks)
  const words = [
    happened ? `happened ${momentLabel(happened)}` : '',
    entry.ran ? `out of the log ${entry.ran.log}` : '',
  ]
  return words.filter(Boolean).join(', ')
}

async function labelsOfParts(lab: TraceLab, ids: readonly string[]): Promise<Labelled> {
  const parts = new Map((await lab.queries.trace.parts(ids)).map((part) => [part.id as string, part]))
  const texts = await lab.queries.trace.texts(ids as readonly TextNodeId[])
  const outlines = await loadOutlines(lab, [...parts.values()])
  return ids.map((id) => {
    const part = parts.get(id)
    if (!part) return [id, gone('part', 'A part that was removed')]
    const outline = outlines.get(part.procedure)!
    const label: NodeLabel = {
      kind: 'part',
      name: nameOfPart(part.kind, outline.numberOf(part.step)),
      detail: outline.title,
      text: texts.get(id) ?? '',
      projects: outline.projects,
      state: 'standing',
    }
    return [id, label]
  })
}

/** A procedure as far as its parts are called by it. */
export interface Outline {
  /** "Untitled procedure" where it has no title yet. */
  readonly title: string
  readonly projects: readonly ProjectId[]
  readonly steps: readonly Step[]
  /** Empty for a section, and for what is no step's. */
  readonly numberOf: (step: Part['step']) => string
}

/** The outlines of the procedures that some parts are of. */
export async function loadOutlines(
  { queries }: TraceLab,
  parts: readonly Pick<Part, 'procedure'>[],
): Promise<ReadonlyMap<ProcedureId, Outline>> {
  const ids = [...new Set(parts.map(({ procedure }) => procedure))]
  const outlines = await queries.trace.outlines(ids)
  return new Map(
    outlines.map(({ id, project, title, steps }): [ProcedureId, Outline] => {
      const numbers = rowNumbers(steps)
      const outline: Outline = {
        title: plainWords(title, 80) || 'Untitled procedure',
        projects: project === null ? [] : [project],
        steps,
        numberOf: (step) => (step === null ? '' : (numbers.get(step) ?? '')),
      }
      return [id, outline]
    }),
  )
}

async function labelsOfCaptures({ queries }: TraceLab, ids: readonly string[]): Promise<Labelled> {
  const heads = new Map((await queries.trace.captureHeads(ids)).map((head) => [head.id as string, head]))
  const sources = await sourcesOf(queries, [...heads.values()])
  return ids.map((id) => {
    const head = heads.get(id)
    const source = head && sources.get(head.source)
    if (!head || !source) return [id, gone('capture', 'A source that is not in this lab')]
    const label = labelOf('capture', source, wayIn(head.wayIn, head.taken, head.saved))
    return [id, head.pages.length === 0 ? label : { ...label, pages: head.pages }]
  })
}

async function sourcesOf(
  queries: TraceLab['queries'],
  heads: readonly CaptureHead[],
): Promise<Map<string, Source>> {
  const sources = await queries.trace.sources(heads.map(({ source }) => source))
  return new Map(sources.map((source) => [source.id, source]))
}

async function labelsOfSources({ queries }: TraceLab, ids: readonly string[]): Promise<Labelled> {
  const sources = new Map((await queries.trace.sources(ids)).map((source) => [source.id as string, source]))
  return ids.map((id) => {
    const source = sources.get(id)
    if (!source) return [id, gone('source', 'A source that is not in this lab')]
    return [id, labelOf('source', source, wayIn(source.wayIn, source.added, null))]
  })
}

function labelOf(kind: 'source' | 'capture', source: Source, came: string): NodeLabel {
  const { title, address, projects } = source
  return {
    kind,
    name: title.trim() || address || 'Untitled source',
    detail: [address ?? '', came].filter(Boolean).join(', '),
    text: null,
    projects,
    state: 'standing',
  }
}

/** How and when something came into the lab: "found in the drop folder 2026-11-14 18:31:02 +01:00". */
function wayIn(way: WayIn, at: Moment, saved: Moment | null): string {
  const came = `${wayInWords[way]} ${momentLabel(at)}`
  return saved ? `${came}, saved by the browser ${momentLabel(saved)}` : came
}
