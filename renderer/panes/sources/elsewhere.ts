/** Sources of the lab that the open project does not use, sorted by where they are used. */
import type { ProjectId } from '../../../shared/lab/ids.ts'
import type { Project, Source } from '../../../shared/lab/model.ts'

export interface SourcesOfProject {
  /** null for sources that no project uses any more. */
  readonly project: Project | null
  readonly sources: readonly Source[]
}

/** Each source once, with the first of its projects that the lab still has. Projects without such sources are left out. */
export function sourcesElsewhere(
  sources: readonly Source[],
  projects: readonly Project[],
  open: ProjectId,
): SourcesOfProject[] {
  const others = sources.filter((source) => !source.projects.includes(open))
  const ownerOf = (source: Source): ProjectId | undefined =>
    projects.find(({ id }) => source.projects.includes(id))?.id
  const groups = [...projects, null].map((project) => ({
    project,
    sources: others.filter((source) => ownerOf(source) === project?.id),
  }))
  return groups.filter((group) => group.sources.length > 0)
}
