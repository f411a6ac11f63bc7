/**
 * What several things of a lab are read for: those that they share – projects, procedures, machines – are read once. For one
 * answer, so that everything is as it stands when that is asked for.
 */
import { signsOfMachine, type PartMatter } from '../../shared/find/lab/documents.ts'
import type { MachineId, ProcedureId, ProjectId, SourceId, StepId } from '../../shared/lab/ids.ts'
import type { Capture, Machine, PartKind, Project, Source } from '../../shared/lab/model.ts'
import { rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import type { Queries } from '../db/queries.ts'

export type ThingQueries = Pick<
  Queries,
  | 'findNewestCapture'
  | 'findProject'
  | 'findSource'
  | 'machines'
  | 'procedureMatter'
  | 'stepMatter'
  | 'stepsOf'
>

/** What the rows of a procedure are named by. */
export interface NumberedProcedure {
  /** Empty for none. */
  readonly title: string
  /** See `rowNumbers`. */
  readonly numbers: ReadonlyMap<StepId, string>
}

export class ThingReads {
  private readonly projects = new Map<ProjectId, Promise<Project | undefined>>()
  private readonly procedures = new Map<ProcedureId, Promise<NumberedProcedure>>()
  private machines: Promise<readonly Machine[]> | null = null

  constructor(private readonly queries: ThingQueries) {}

  project(id: ProjectId): Promise<Project | undefined> {
    return once(this.projects, id, () => this.queries.findProject(id))
  }

  /** With its newest capture; not one that was merged into another, which shows its texts. */
  async source(id: SourceId): Promise<{ source: Source; capture: Capture | undefined } | undefined> {
    const source = await this.queries.findSource(id)
    if (!source || source.mergedInto !== null) return undefined
    return { source, capture: await this.queries.findNewestCapture(id) }
  }

  /** A step with all that is said of it, and what its row is named by. */
  async step(id: StepId) {
    const matter = await this.queries.stepMatter(id)
    if (!matter) return undefined
    const { title, numbers } = await this.numbered(matter.procedure.id)
    return { ...matter, title, number: numbers.get(id) ?? '' }
  }

  /** With what it is known by beside its name, in one line. */
  async machine(id: MachineId): Promise<{ machine: Machine; signs: string } | undefined> {
    this.machines ??= this.queries.machines()
    const machine = (await this.machines).find((one) => one.id === id)
    return machine && { machine, signs: signsOfMachine(machine).join(', ') }
  }

  private numbered(id: ProcedureId): Promise<NumberedProcedure> {
    return once(this.procedures, id, async () => ({
      title: textOfPart((await this.queries.procedureMatter(id))?.parts ?? [], 'title'),
      numbers: rowNumbers(await this.queries.stepsOf(id)),
    }))
  }
}

/** Empty where there is none. */
export function textOfPart(parts: readonly PartMatter[], kind: PartKind): string {
  return parts.find(({ part }) => part.kind === kind)?.text ?? ''
}

function once<Id, T>(known: Map<Id, Promise<T>>, id: Id, read: () => Promise<T>): Promise<T> {
  const reading = known.get(id) ?? read()
  known.set(id, reading)
  return reading
}
