/** The things of a lab that can be found, read as they stand and made into documents. */
import type { FindDocument } from '../../shared/find/document.ts'
import {
  documentOfEntry,
  documentOfMachine,
  documentOfProcedure,
  documentOfProject,
  documentOfSource,
  documentOfStep,
  type MachineNames,
} from '../../shared/find/lab/documents.ts'
import { refOfOwner, type ThingRef, type TouchedRef } from '../../shared/find/lab/touched.ts'
import type { ProcedureId, StepId } from '../../shared/lab/ids.ts'
import type { Place, Procedure, Step } from '../../shared/lab/model.ts'
import { rowPlaces, type RowPlace } from '../../shared/procedure/rows/places.ts'
import type { Queries } from '../db/queries.ts'

export type FindQueries = Pick<
  Queries,
  | 'besideProcedure'
  | 'changesAfter'
  | 'entryMatters'
  | 'findNewestCapture'
  | 'findPart'
  | 'findProject'
  | 'findSource'
  | 'findableIds'
  | 'machines'
  | 'placedOn'
  | 'procedureMatter'
  | 'projects'
  | 'sequence'
  | 'stepMatter'
  | 'stepsOf'
>

/** What stands of some things, and which of them do not stand any more. */
export interface ReadThings {
  readonly documents: readonly FindDocument[]
  readonly removed: readonly string[]
}

/** All things of a lab, the newest entries and sources before older ones: what is looked for most is there first. */
export async function allThings(queries: Pick<FindQueries, 'findableIds'>): Promise<ThingRef[]> {
  const { projects, machines, procedures, steps, entries, sources } = await queries.findableIds()
  return [
    ...projects.map((id) => ({ kind: 'project', id }) as const),
    ...machines.map((id) => ({ kind: 'machine', id }) as const),
    ...procedures.map((id) => ({ kind: 'procedure', id }) as const),
    ...steps.map((id) => ({ kind: 'step', id }) as const),
    ...entries.reverse().map((id) => ({ kind: 'entry', id }) as const),
    ...sources.reverse().map((id) => ({ kind: 'source', id }) as const),
  ]
}

/** The things that what was touched leads to, each once. */
export async function thingsTouched(
  queries: FindQueries,
  touched: readonly TouchedRef[],
): Promise<ThingRef[]> {
  const found = new Map<string, ThingRef>()
  for (const ref of touched)
    for (const thing of await thingsOf(queries, ref)) found.set(`${thing.kind} ${thing.id}`, thing)
  return [...found.values()]
}

async function thingsOf(queries: FindQueries, ref: TouchedRef): Promise<readonly ThingRef[]> {
  switch (ref.kind) {
    case 'part': {
      const part = await queries.findPart(ref.id)
      return part ? [refOfOwner(part)] : []
    }
    case 'placed on': {
      const { entries, procedures } = await queries.placedOn(ref.id)
      const rows = await Promise.all(procedures.map((id) => rowsOf(queries, id)))
      return [
        ...entries.map((id) => ({ kind: 'entry', id }) as const),
        ...procedures.map((id) => ({ kind: 'procedure', id }) as const),
        ...rows.flat(),
      ]
    }
    case 'rows':
      return rowsOf(queries, ref.id)
    case 'source': {
      // A source shows the texts of those that were merged into it.
      const into = (await queries.findSource(ref.id))?.mergedInto
      return into ? [ref, { kind: 'source', id: into }] : [ref]
    }
    case 'entry':
    case 'machine':
    case 'procedure':
    case 'project':
    case 'step':
      return [ref]
  }
}

async function rowsOf(queries: FindQueries, procedure: ProcedureId): Promise<readonly ThingRef[]> {
  return (await queries.stepsOf(procedure)).map(({ id }) => ({ kind: 'step', id }))
}

/** Where rows happen; the rows of each procedure are read once. */
class RowPlaces {
  private readonly known = new Map<ProcedureId, Promise<ReadonlyMap<StepId, RowPlace>>>()
  constructor(private readonly queries: FindQueries) {}

  /** A section happens nowhere itself, unless it says so. */
  async placeOf(step: Step, procedure: Procedure): Promise<Place | null> {
    if (step.level === 'section') return step.place
    const known = this.known.get(procedure.id) ?? this.read(procedure)
    this.known.set(procedure.id, known)
    return (await known).get(step.id)?.place ?? null
  }

  private async read(procedure: Procedure): Promise<ReadonlyMap<StepId, RowPlace>> {
    return rowPlaces(procedure, await this.queries.stepsOf(procedure.id))
  }
}

/** Reads things as they stand. */
export async function readThings(queries: FindQueries, things: readonly ThingRef[]): Promise<ReadThings> {
  const machines = await queries.machines()
  const names: MachineNames = new Map(machines.map((machine) => [machine.id, machine]))
  const entries = things.flatMap(({ kind, id }) => (kind === 'entry' ? [id] : []))
  const matters = await queries.entryMatters(entries)
  const documents = matters.map((matter) => documentOfEntry(matter, names))
  const places = new RowPlaces(queries)
  for (const thing of things) {
    const document = await documentOf(queries, thing, names, places)
    if (document) documents.push(document)
  }
  const standing = new Set(documents.map(({ id }) => id))
  return { documents, removed: things.map(({ id }) => id).filter((id) => !standing.has(id)) }
}

/** @returns undefined for entries, which are read together, and for what does not stand */
async function documentOf(
  queries: FindQueries,
  thing: ThingRef,
  names: MachineNames,
  places: RowPlaces,
): Promise<FindDocument | undefined> {
  switch (thing.kind) {
    case 'entry':
      return undefined
    case 'source': {
      const source = await queries.findSource(thing.id)
      if (!source || source.mergedInto !== null) return undefined
      return documentOfSource(source, (await queries.findNewestCapture(thing.id))?.text ?? null)
    }
    case 'procedure': {
      const matter = await queries.procedureMatter(thing.id)
      return matter && documentOfProcedure({ ...matter, ...(await queries.besideProcedure(thing.id)) }, names)
    }
    case 'step': {
      const matter = await queries.stepMatter(thing.id)
      if (!matter) return undefined
      return documentOfStep(matter, await places.placeOf(matter.step, matter.procedure), names)
    }
    case 'project': {
      const project = await queries.findProject(thing.id)
      return project && documentOfProject(project)
    }
    case 'machine': {
      const machine = (await queries.machines()).find(({ id }) => id === thing.id)
      return machine && documentOfMachine(machine)
    }
  }
}
