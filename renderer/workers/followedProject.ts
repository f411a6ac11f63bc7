/** A project that is read whole once and then brought up to date Change by Change, as the panes do it. */
import type { LabId, ProjectId } from '../../shared/lab/ids.ts'
import type { Machine } from '../../shared/lab/model.ts'
import { forgetRemembered } from '../../shared/lab/remembered.ts'
import type { Queries } from '../db/queries.ts'
import { advanceView, needsReload, touchedBy, toView, type ProjectView } from '../store/view.ts'

export interface ProjectState {
  readonly view: ProjectView
  readonly machines: readonly Machine[]
}

export class FollowedProject {
  private view: ProjectView | null = null

  constructor(
    readonly lab: LabId,
    private readonly queries: Queries,
    private readonly project: ProjectId,
  ) {}

  /** The project as it stands. One call at a time. */
  async catchUp(): Promise<ProjectState> {
    const view = await this.viewNow()
    this.view = view
    return { view, machines: await this.queries.machines() }
  }

  private async viewNow(): Promise<ProjectView> {
    const { view, queries } = this
    if (!view) return this.readWhole()
    const changes = await queries.changesAfter(view.sequence)
    if (changes.length === 0) return view
    if (changes.some(({ act }) => act === 'strike out')) forgetRemembered()
    if (needsReload(changes)) return this.readWhole()
    const { nodes, links } = touchedBy(changes)
    // Captures are of no use here.
    return advanceView(view, changes, await queries.touched(nodes, links), [])
  }

  private async readWhole(): Promise<ProjectView> {
    return toView(this.project, await this.queries.project(this.project))
  }
}
