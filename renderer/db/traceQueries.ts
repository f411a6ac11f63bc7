/** Reading for a trace: many records of a kind at once, by their ids, of whichever project. */
import type { StoredChange } from '../../shared/lab/change.ts'
import type { ChangeId, LinkId, ProcedureId, ProjectId, StepId, VersionId } from '../../shared/lab/ids.ts'
import type {
  CaptureHead,
  Entry,
  Link,
  LinkState,
  Mark,
  Part,
  Source,
  Step,
  TextNodeId,
  Version,
} from '../../shared/lab/model.ts'
import type { LabDatabase } from './schema.ts'

const found = <T>(records: readonly (T | undefined)[]): T[] => records.filter((one) => one !== undefined)

/** A procedure as far as its parts are called by it. */
export interface ProcedureOutline {
  readonly id: ProcedureId
  readonly project: ProjectId | null
  /** As it stands; empty where there is none. */
  readonly title: string
  readonly steps: readonly Step[]
}

export class TraceQueries {
  constructor(private readonly db: LabDatabase) {}

  /** Those of some links that stand, with their states. In no order. */
  async links(ids: readonly LinkId[]): Promise<{ links: Link[]; states: LinkState[] }> {
    return {
      links: found(await this.db.links.bulkGet([...ids])),
      states: found(await this.db.linkStates.bulkGet([...ids])),
    }
  }

  /** Links in the order of their ids, those behind one of them, so that all can be read bit by bit. */
  linksBehind(id: string, most: number): Promise<Link[]> {
    return this.db.links.where('id').above(id).limit(most).toArray()
  }

  async entries(ids: readonly string[]): Promise<Entry[]> {
    return found(await this.db.entries.bulkGet([...ids]))
  }

  /** What was set on some entries after they were written, in order. */
  marks(entries: readonly string[]): Promise<Mark[]> {
    return this.db.marks
      .where('entry')
      .anyOf([...entries])
      .sortBy('id')
  }

  async parts(ids: readonly string[]): Promise<Part[]> {
    return found(await this.db.parts.bulkGet([...ids]))
  }

  partsOfSteps(steps: readonly string[]): Promise<Part[]> {
    return this.db.parts
      .where('step')
      .anyOf([...steps])
      .toArray()
  }

  partsOfProcedure(procedure: ProcedureId): Promise<Part[]> {
    return this.db.parts.where('procedure').equals(procedure).toArray()
  }

  async findStep(id: StepId): Promise<Step | undefined> {
    return this.db.steps.get(id)
  }

  async findVersion(id: VersionId): Promise<Version | undefined> {
    return this.db.versions.get(id)
  }

  async sources(ids: readonly string[]): Promise<Source[]> {
    return found(await this.db.sources.bulkGet([...ids]))
  }

  async captureHeads(ids: readonly string[]): Promise<CaptureHead[]> {
    return found(await this.db.captureHeads.bulkGet([...ids]))
  }

  /** The present texts of some entries and parts; such as are gone are left out. */
  async texts(nodes: readonly TextNodeId[]): Promise<Map<string, string>> {
    const records = found(await this.db.texts.bulkGet([...nodes]))
    return new Map(records.map(({ node, text }) => [node, text]))
  }

  /**
   * Titles and steps of some procedures, the steps in no order; such as are not in the lab are without a project.
   * Each is asked for by its one key: a range is read at once, while several keys are walked record by record.
   */
  outlines(ids: readonly ProcedureId[]): Promise<ProcedureOutline[]> {
    const { procedures, steps, parts, texts } = this.db
    return this.db.transaction('r', [procedures, steps, parts, texts], () =>
      Promise.all(ids.map((id) => this.outline(id))),
    )
  }

  private async outline(id: ProcedureId): Promise<ProcedureOutline> {
    const [procedure, steps, parts] = await Promise.all([
      this.db.procedures.get(id),
      this.db.steps.where('procedure').equals(id).toArray(),
      this.partsOfProcedure(id),
    ])
    const title = parts.find(({ kind }) => kind === 'title')
    const text = title && (await this.db.texts.get(title.id))
    return { id, project: procedure?.project ?? null, title: text?.text ?? '', steps }
  }

  /** Some Changes, in the order of their commits. Only they are read, however many the lab has. */
  changes(ids: readonly ChangeId[]): Promise<StoredChange[]> {
    return this.db.changes
      .where('id')
      .anyOf([...ids])
      .sortBy('sequence')
  }
}
