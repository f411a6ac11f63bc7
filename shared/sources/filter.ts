/** Which sources a list shows. */
import type { FolderId, ProjectId } from '../lab/ids.ts'
import type { SourceKind } from '../lab/model.ts'
import type { SourceFacts } from './facts.ts'
import { toWantedWords } from './folded.ts'
import type { FolderTree } from './folder-tree.ts'

/** What is true of a source or not. `unused`: nothing of the lab came from it. */
export const sourceFlags = ['pinned', 'unused', 'link without text', 'same as another', 'set aside'] as const
export type SourceFlag = (typeof sourceFlags)[number]

export interface SourceFilter {
  /** Each must stand in the title, address, author, kind, tags, folder names or remark. */
  readonly words: string
  /** Those that the open project uses, or all of the lab. */
  readonly scope: 'project' | 'lab'
  /** It must carry all of them. */
  readonly tags: readonly string[]
  /** It must lie in this folder or in one within it. */
  readonly folder: FolderId | null
  /** `none`: no project uses it. */
  readonly project: ProjectId | 'none' | null
  /** It must be of one of them; of any where there are none. */
  readonly kinds: readonly SourceKind[]
  /** First and last day on which it may have been added: YYYY-MM-DD, by the calendar of where it was added. */
  readonly from: string | null
  readonly to: string | null
  /** All must hold. What is set aside is shown only where that is asked for. */
  readonly flags: readonly SourceFlag[]
}

export const noFilter: SourceFilter = {
  words: '',
  scope: 'project',
  tags: [],
  folder: null,
  project: null,
  kinds: [],
  from: null,
  to: null,
  flags: [],
}

/** What a filter leans on beside the sources themselves. */
export interface FilterGround {
  readonly open: ProjectId
  readonly tree: FolderTree
  /** Ids of sources that are the same as another one. */
  readonly same: ReadonlySet<string>
}

/** The sources that a filter lets through, in the order in which they came. */
export function filterFacts(
  rows: readonly SourceFacts[],
  filter: SourceFilter,
  ground: FilterGround,
): SourceFacts[] {
  const missed = sieveOf(filter, ground)
  return rows.filter((row) => missed(row) === 0)
}

/** Whether anything but the scope is set. */
export function isFiltering(filter: SourceFilter): boolean {
  const { words, tags, folder, project, kinds, from, to, flags } = filter
  const lists = [tags, kinds, flags].some((list) => list.length > 0)
  return words.trim() !== '' || lists || [folder, project, from, to].some((one) => one !== null)
}

/** The conditions of a filter, as bits: a source that misses one alone would be let through without it. */
export const conditions = {
  words: 1,
  scope: 2,
  tags: 4,
  folder: 8,
  project: 16,
  kinds: 32,
  days: 64,
  flags: 128,
  aside: 256,
} as const

/** Tells for a source the conditions that it misses, added up; 0 where it is let through. */
export function sieveOf(
  filter: SourceFilter,
  { open, tree, same }: FilterGround,
): (row: SourceFacts) => number {
  const words = toWantedWords(filter.words)
  const { scope, tags, folder, project, kinds, from, to, flags } = filter
  const within = folder === null ? null : new Set(tree.downFrom(folder))
  const showsAside = flags.includes('set aside')
  return (row) => {
    const { source } = row
    const day = source.added.slice(0, 10)
    let missed = 0
    if (!words.every((word) => row.words.includes(word))) missed |= conditions.words
    if (scope === 'project' && !source.projects.includes(open)) missed |= conditions.scope
    if (!tags.every((tag) => source.tags.includes(tag))) missed |= conditions.tags
    if (within && !source.folders.some((id) => within.has(id))) missed |= conditions.folder
    if (project !== null && !isInProject(row, project)) missed |= conditions.project
    if (kinds.length > 0 && !kinds.includes(source.kind)) missed |= conditions.kinds
    if ((from !== null && day < from) || (to !== null && day > to)) missed |= conditions.days
    if (!flags.every((flag) => hasFlag(row, flag, same))) missed |= conditions.flags
    if (source.setAside && !showsAside) missed |= conditions.aside
    return missed
  }
}

function isInProject({ source }: SourceFacts, project: ProjectId | 'none'): boolean {
  return project === 'none' ? source.projects.length === 0 : source.projects.includes(project)
}

export function hasFlag(row: SourceFacts, flag: SourceFlag, same: ReadonlySet<string>): boolean {
  switch (flag) {
    case 'pinned':
      return row.source.pinned
    case 'unused':
      return row.uses === 0
    case 'link without text':
      return row.newest === null
    case 'same as another':
      return same.has(row.source.id)
    case 'set aside':
      return row.source.setAside
  }
}
