/** How many sources a list would show with one more condition. */
import type { FolderId, ProjectId } from '../lab/ids.ts'
import type { SourceKind } from '../lab/model.ts'
import type { SourceFacts } from './facts.ts'
import {
  conditions,
  hasFlag,
  sieveOf,
  sourceFlags,
  type FilterGround,
  type SourceFilter,
  type SourceFlag,
} from './filter.ts'
import type { FolderTree } from './folder-tree.ts'

/** What would be none is absent. */
export interface FacetCounts {
  /** With the filter as it is. */
  readonly shown: number
  /** With either scope in place of the one that is set. */
  readonly inProject: number
  readonly inLab: number
  /** With this tag, or this flag, added. */
  readonly tags: ReadonlyMap<string, number>
  readonly flags: ReadonlyMap<SourceFlag, number>
  /** With this folder, project or kind alone in place of those of its sort that are set. */
  readonly folders: ReadonlyMap<FolderId, number>
  readonly projects: ReadonlyMap<ProjectId | 'none', number>
  readonly kinds: ReadonlyMap<SourceKind, number>
}

/** Counts in one pass over the sources. */
export function countFacets(
  rows: readonly SourceFacts[],
  filter: SourceFilter,
  ground: FilterGround,
): FacetCounts {
  const { scope, folder, project, kinds: kind, aside } = conditions
  const tags = new Map<string, number>()
  const flags = new Map<SourceFlag, number>()
  const folders = new Map<FolderId, number>()
  const projects = new Map<ProjectId | 'none', number>()
  const kinds = new Map<SourceKind, number>()
  const upFrom = rememberUpFrom(ground.tree)
  const missedBy = sieveOf(filter, ground)
  let [shown, inProject, inLab] = [0, 0, 0]
  for (const row of rows) {
    const { source } = row
    const missed = missedBy(row)
    if (missed === 0) {
      shown += 1
      for (const tag of source.tags) add(tags, tag)
      for (const flag of sourceFlags) if (hasFlag(row, flag, ground.same)) add(flags, flag)
    }
    // Of those that are set aside this one is missed as long as they are not asked for.
    if (missed === aside) add(flags, 'set aside')
    if ((missed & ~scope) === 0) {
      inLab += 1
      if (source.projects.includes(ground.open)) inProject += 1
    }
    if ((missed & ~folder) === 0) for (const id of foldersOver(source.folders, upFrom)) add(folders, id)
    if ((missed & ~project) === 0)
      for (const id of source.projects.length === 0 ? (['none'] as const) : source.projects) add(projects, id)
    if ((missed & ~kind) === 0) add(kinds, source.kind)
  }
  return { shown, inProject, inLab, tags, flags, folders, projects, kinds }
}

function add<K>(counts: Map<K, number>, key: K): void {
  counts.set(key, (counts.get(key) ?? 0) + 1)
}

function rememberUpFrom(tree: FolderTree): (id: FolderId) => readonly FolderId[] {
  const known = new Map<FolderId, readonly FolderId[]>()
  return (id) => {
    const up = known.get(id) ?? tree.upFrom(id)
    known.set(id, up)
    return up
  }
}

/** The folders that some folders lie in and they themselves, each once. */
function foldersOver(
  own: readonly FolderId[],
  upFrom: (id: FolderId) => readonly FolderId[],
): Iterable<FolderId> {
  if (own.length === 0) return own
  if (own.length === 1) return upFrom(own[0]!)
  return new Set(own.flatMap(upFrom))
}
