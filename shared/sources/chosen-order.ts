/** What a person chose for the list of sources, as it is kept with the lab. */
import { sourceKinds } from '../lab/model.ts'
import type { FolderId, ProjectId } from '../lab/ids.ts'
import { noFilter, sourceFlags, type SourceFilter } from './filter.ts'
import type { FolderTree } from './folder-tree.ts'
import { sourceSorts, type SourceSort } from './sort.ts'

export interface ChosenOrder {
  readonly filter: SourceFilter
  readonly sort: SourceSort
}

export const usualOrder: ChosenOrder = { filter: noFilter, sort: 'newest' }

/** What was kept, as far as it still means something; the usual in place of the rest. */
export function toChosenOrder(kept: unknown): ChosenOrder {
  const { filter, sort } = asRecord(kept)
  const { words, scope, tags, folder, project, kinds, from, to, flags } = asRecord(filter)
  return {
    sort: sourceSorts.find((one) => one === sort) ?? usualOrder.sort,
    filter: {
      words: maybeText(words) ?? '',
      scope: scope === 'lab' ? 'lab' : 'project',
      tags: asTexts(tags),
      folder: maybeText(folder) as FolderId | null,
      project: maybeText(project) as ProjectId | null,
      kinds: sourceKinds.filter((kind) => asTexts(kinds).includes(kind)),
      from: maybeDay(from),
      to: maybeDay(to),
      flags: sourceFlags.filter((flag) => asTexts(flags).includes(flag)),
    },
  }
}

/** Groups of ids that were said to be different, as they were kept. */
export function toKeptApart(kept: unknown): readonly (readonly string[])[] {
  return Array.isArray(kept) ? kept.map(asTexts).filter((ids) => ids.length > 1) : []
}

/** A filter without what is not in the lab any more: a folder or a project that was removed. */
export function withoutGone(
  filter: SourceFilter,
  tree: FolderTree,
  projects: readonly { readonly id: ProjectId }[],
): SourceFilter {
  const { folder, project } = filter
  const isFolderGone = folder !== null && !tree.find(folder)
  const isProjectGone = project !== null && project !== 'none' && !projects.some(({ id }) => id === project)
  if (!isFolderGone && !isProjectGone) return filter
  return { ...filter, folder: isFolderGone ? null : folder, project: isProjectGone ? null : project }
}

function asRecord(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {}
}

function asTexts(value: unknown): readonly string[] {
  return Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string') : []
}

const maybeText = (value: unknown): string | null => (typeof value === 'string' ? value : null)

const maybeDay = (value: unknown): string | null =>
  typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/u.test(value) ? value : null
