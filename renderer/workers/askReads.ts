/** What answering a question reads of a lab: things with their texts as they stand when asked, and what stands around them. */
import type {
  AskRef,
  AskSurroundings,
  AskText,
  AskThing,
  JournalAround,
} from '../../shared/find/ask/thing.ts'
import type { LabIndex } from '../../shared/find/index/lab-index.ts'
import { isFoundEntry, partsInOrder, thingOfEntry, type PartMatter } from '../../shared/find/lab/documents.ts'
import { momentOf } from '../../shared/journal/entry-facts.ts'
import type { EntryId, MachineId, ProcedureId, ProjectId, SourceId, StepId } from '../../shared/lab/ids.ts'
import { procedurePartKinds, stepPartKinds, type PartKind } from '../../shared/lab/model.ts'
import { compareSteps } from '../../shared/lab/acts.ts'
import { toGraphLink, type GraphLink, type TraceDirection } from '../../shared/provenance/graph.ts'
import type { Queries } from '../db/queries.ts'
import { textOfPart, ThingReads, type ThingQueries } from './thingReads.ts'

export type AskQueries = ThingQueries & Pick<Queries, 'entryIdsOf' | 'entryMatters' | 'findEntry' | 'linksAt'>

/** Reads for one question: what several things share is read once. */
export class AskReads implements AskSurroundings {
  private readonly reads: ThingReads
  private readonly journals = new Map<ProjectId, Promise<EntryId[]>>()

  constructor(
    private readonly queries: AskQueries,
    readonly index: LabIndex,
  ) {
    this.reads = new ThingReads(queries)
  }

  async readThings(refs: readonly AskRef[]): Promise<AskThing[]> {
    const entries = refs.flatMap(({ id, thing }) => (isFoundEntry(thing) ? [id as EntryId] : []))
    const others = refs.filter(({ thing }) => !isFoundEntry(thing))
    const read = await Promise.all(others.map((ref) => this.other(ref)))
    return [...(await this.entries(entries)), ...read.flatMap((thing) => thing ?? [])]
  }

  async readAround(entry: string, before: number, after: number): Promise<JournalAround> {
    const project = (await this.queries.findEntry(entry))?.project
    const journal = project === undefined ? [] : await this.journal(project)
    const at = journal.indexOf(entry as EntryId)
    if (at < 0) return { before: [], after: [] }
    return {
      before: await this.entries(journal.slice(Math.max(0, at - before), at)),
      after: await this.entries(journal.slice(at + 1, at + 1 + after)),
    }
  }

  async readSteps(procedure: string): Promise<AskThing[]> {
    const steps = await this.queries.stepsOf(procedure as ProcedureId)
    const read = await Promise.all(steps.sort(compareSteps).map(({ id }) => this.step(id)))
    return read.flatMap((step) => step ?? [])
  }

  async readLinks(nodes: readonly string[], direction: TraceDirection): Promise<GraphLink[]> {
    return (await this.queries.linksAt(nodes, direction)).map(toGraphLink)
  }

  private journal(project: ProjectId): Promise<EntryId[]> {
    const known = this.journals.get(project)
    if (known) return known
    const reading = this.queries.entryIdsOf(project)
    this.journals.set(project, reading)
    return reading
  }

  /** In the order asked; without those that were withdrawn. */
  private async entries(ids: readonly EntryId[]): Promise<AskThing[]> {
    const matters = await this.queries.entryMatters(ids)
    const standing = matters.filter(({ isWithdrawn }) => !isWithdrawn)
    return Promise.all(
      standing.map(async ({ entry, text, marks }) => ({
        id: entry.id,
        thing: thingOfEntry(entry),
        kind: entry.kind,
        title: '',
        way: [await this.titleOfProject(entry.project)],
        moment: momentOf(entry, marks),
        procedure: null,
        texts: [{ node: { kind: 'entry', id: entry.id } as const, part: null, text }],
      })),
    )
  }

  private async other({ id, thing }: AskRef): Promise<AskThing | null> {
    switch (thing) {
      case 'source':
        return this.source(id as SourceId)
      case 'procedure':
        return this.procedure(id as ProcedureId)
      case 'step':
        return this.step(id as StepId)
      case 'project':
        return this.project(id as ProjectId)
      case 'machine':
        return this.machine(id as MachineId)
      case 'entry':
      case 'problem':
      case 'file':
      case 'command':
        return null
    }
  }

  private async source(id: SourceId): Promise<AskThing | null> {
    const read = await this.reads.source(id)
    if (!read) return null
    const { source, capture } = read
    const node = { kind: 'source', id } as const
    const remark = source.remark === '' ? [] : [{ node, part: null, text: source.remark }]
    return {
      ...{ id, thing: 'source', kind: source.kind, title: source.title, way: [], procedure: null },
      moment: source.added,
      texts: capture
        ? [{ node: { kind: 'capture', id: capture.id }, part: null, text: capture.text }, ...remark]
        : remark,
    }
  }

  private async procedure(id: ProcedureId): Promise<AskThing | null> {
    const matter = await this.queries.procedureMatter(id)
    if (!matter) return null
    const { procedure, parts } = matter
    return {
      ...{ id, thing: 'procedure', kind: null, title: textOfPart(parts, 'title'), procedure: null },
      way: [await this.titleOfProject(procedure.project)],
      moment: procedure.created,
      texts: textsOf(parts, procedurePartKinds),
    }
  }

  private async step(id: StepId): Promise<AskThing | null> {
    const matter = await this.reads.step(id)
    if (!matter) return null
    const { procedure, parts, title, number } = matter
    return {
      ...{ id, thing: 'step', kind: null, title: textOfPart(parts, 'heading'), procedure: procedure.id },
      way: [await this.titleOfProject(procedure.project), title, ...(number === '' ? [] : [number])],
      moment: null,
      texts: textsOf(parts, stepPartKinds),
    }
  }

  private async project(id: ProjectId): Promise<AskThing | null> {
    const project = await this.reads.project(id)
    if (!project) return null
    const { title, aim, created } = project
    return {
      ...{ id, thing: 'project', kind: null, title, way: [], procedure: null, moment: created },
      texts: [{ node: null, part: null, text: aim }],
    }
  }

  private async machine(id: MachineId): Promise<AskThing | null> {
    const read = await this.reads.machine(id)
    if (!read) return null
    const { name, notes, created } = read.machine
    return {
      ...{ id, thing: 'machine', kind: null, title: name, way: [], procedure: null, moment: created },
      texts: [notes, read.signs]
        .filter((text) => text !== '')
        .map((text) => ({ node: null, part: null, text })),
    }
  }

  private async titleOfProject(id: ProjectId): Promise<string> {
    return (await this.reads.project(id))?.title ?? ''
  }
}

/** Those that say something, in the order in which they are shown. */
function textsOf(parts: readonly PartMatter[], kinds: readonly PartKind[]): AskText[] {
  const shown = partsInOrder(parts).filter(({ text }) => text !== '')
  shown.sort((one, other) => kinds.indexOf(one.part.kind) - kinds.indexOf(other.part.kind))
  return shown.map(({ part, text }) => ({ node: { kind: 'part', id: part.id }, part: part.kind, text }))
}
