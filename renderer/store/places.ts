/**
 * Where a person was in each project, so that coming back goes on there. What the journal's pane remembers survives a
 * restart; the rest lasts as long as the window.
 */
import type { OpenLab } from '../db/lab.ts'
import type { ProcedureId, ProjectId, SourceId } from '../../shared/lab/ids.ts'

export interface PlaceInProject {
  /** Undefined where it was never said: then the first one is shown. */
  readonly procedure?: ProcedureId | null
  readonly source?: SourceId | null
  /** As the journal's pane wrote it, or an older version of the program; it judges what it reads. */
  readonly journal?: unknown
}

/** How long the journal must be at rest before its place is written, in milliseconds. */
const REST = 500

const settingOf = (project: ProjectId): string => `place in the journal: ${project}`

export class Places {
  private readonly known = new Map<ProjectId, PlaceInProject>()
  private readonly unwritten = new Map<ProjectId, unknown>()
  private timer: ReturnType<typeof setTimeout> | null = null

  constructor(private readonly lab: Pick<OpenLab, 'findSetting' | 'keepSetting'>) {}

  /** Where the person was; empty for a project that was never open. */
  async find(project: ProjectId): Promise<PlaceInProject> {
    const kept = this.known.get(project) ?? { journal: await this.lab.findSetting(settingOf(project)) }
    // Something may have been noted meanwhile.
    const now = this.known.get(project) ?? kept
    this.known.set(project, now)
    return now
  }

  /** What is known without looking; empty before `find`. */
  at(project: ProjectId): PlaceInProject {
    return this.known.get(project) ?? {}
  }

  /** @param stored what of the journal's place survives a restart */
  note(project: ProjectId, part: PlaceInProject, stored?: unknown): void {
    this.known.set(project, { ...this.known.get(project), ...part })
    if (stored === undefined) return
    this.unwritten.set(project, stored)
    if (this.timer !== null) clearTimeout(this.timer)
    this.timer = setTimeout(() => void this.flush(), REST)
  }

  /** Forgets what was looked for anywhere; where the person was in the panes stays. */
  forgetJournals(): void {
    this.unwritten.clear()
    for (const [project, place] of this.known) this.known.set(project, { ...place, journal: null })
  }

  /** Writes down what was noted. A place that cannot be written is no loss that a person must hear of. */
  async flush(): Promise<void> {
    if (this.timer !== null) clearTimeout(this.timer)
    this.timer = null
    const writes = [...this.unwritten].map(([project, stored]) =>
      this.lab.keepSetting(settingOf(project), stored),
    )
    this.unwritten.clear()
    await Promise.allSettled(writes)
  }
}
