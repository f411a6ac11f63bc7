/** The rows of the list, derived from the lab's sources and what was chosen for the list. */
import { useEffect, useMemo } from 'react'
import { useStore } from 'zustand'
import type { SourceId } from '../../../../shared/lab/ids.ts'
import { withoutGone } from '../../../../shared/sources/chosen-order.ts'
import { countFacets, type FacetCounts } from '../../../../shared/sources/counts.ts'
import { findSameSources, type SameSources } from '../../../../shared/sources/duplicates.ts'
import { toSourceFacts, type SourceFacts } from '../../../../shared/sources/facts.ts'
import { filterFacts, noFilter, type SourceFilter } from '../../../../shared/sources/filter.ts'
import { toFolderTree, type FolderTree } from '../../../../shared/sources/folder-tree.ts'
import { sortFacts } from '../../../../shared/sources/sort.ts'
import { useWorkspaceState } from '../../../store/useWorkspace.ts'
import { itemsOf, type ListItem } from './items.ts'
import { changeFilter, type ListStore } from './listState.ts'

export interface Listed {
  /** All sources of the lab that stand, in the chosen order. */
  readonly all: readonly SourceFacts[]
  readonly byId: ReadonlyMap<string, SourceFacts>
  /** Those that the filter lets through. */
  readonly shown: readonly SourceFacts[]
  readonly items: readonly ListItem[]
  /** Those of `shown` that are chosen. */
  readonly chosen: readonly SourceFacts[]
  readonly counts: FacetCounts
  /** How many there are in the scope, but for those that are set aside unless they are asked for. */
  readonly whole: number
  /** How many the open project uses, but for those that are set aside. */
  readonly inUse: number
  readonly filter: SourceFilter
  readonly tree: FolderTree
  /** The group of sources that are the same, for each source that is in one. */
  readonly same: ReadonlyMap<string, SameSources>
}

/** null before the lab's sources and settings were read. */
export function useListed(store: ListStore): Listed | null {
  const open = useWorkspaceState((state) => state.view?.project)
  const projects = useWorkspaceState((state) => state.projects)
  const isRead = useStore(store, (state) => state.isRead)
  const order = useStore(store, (state) => state.order)
  const apart = useStore(store, (state) => state.apart)
  const opened = useStore(store, (state) => state.opened)
  const chosenIds = useStore(store, (state) => state.chosen)
  const { facts, tree } = useFacts()
  const same = useMemo(() => groupsById(facts, apart), [facts, apart])
  const byId = useMemo(() => new Map<string, SourceFacts>(facts.map((row) => [row.source.id, row])), [facts])
  const all = useMemo(() => sortFacts(facts, order.sort), [facts, order.sort])
  const filter = useMemo(() => withoutGone(order.filter, tree, projects), [order.filter, tree, projects])
  const ground = useMemo(() => (open ? { open, tree, same: new Set(same.keys()) } : null), [open, tree, same])
  const listed = useMemo(() => {
    if (!ground) return null
    const counts = countFacets(all, filter, ground)
    const flags = filter.flags.filter((flag) => flag === 'set aside')
    const whole = filterFacts(all, { ...noFilter, scope: filter.scope, flags }, ground).length
    const inUse = filterFacts(all, noFilter, ground).length
    const through = new Set(filterFacts(all, filter, ground))
    // What is being typed in a row stays in the page, whatever becomes of the row.
    const shown = all.filter((row) => through.has(row) || opened.has(row.source.id))
    return { counts, whole, inUse, shown, items: itemsOf(shown, filter, same) }
  }, [all, filter, ground, opened, same])
  const chosen = useMemo(
    () => listed?.shown.filter(({ source }) => chosenIds.has(source.id)) ?? [],
    [listed, chosenIds],
  )
  useEffect(() => {
    // What went with its folder does not come back with it, or the list would narrow by itself.
    if (listed && isRead && filter !== order.filter) changeFilter(store, filter)
  }, [listed, isRead, filter, order.filter, store])
  return listed && isRead ? { ...listed, all, byId, chosen, filter, tree, same } : null
}

function useFacts(): { readonly facts: readonly SourceFacts[]; readonly tree: FolderTree } {
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  const heads = useWorkspaceState((state) => state.labSources?.heads)
  const folders = useWorkspaceState((state) => state.labSources?.folders)
  const uses = useWorkspaceState((state) => state.labSources?.uses)
  const facts = useMemo(
    () => (sources && heads && folders && uses ? toSourceFacts({ sources, heads, folders, uses }) : []),
    [sources, heads, folders, uses],
  )
  return { facts, tree: useMemo(() => toFolderTree(folders?.values() ?? []), [folders]) }
}

function groupsById(
  facts: readonly SourceFacts[],
  apart: readonly (readonly string[])[],
): Map<string, SameSources> {
  const groups = findSameSources(facts, apart)
  return new Map(groups.flatMap((group) => group.members.map(({ source }) => [source.id, group] as const)))
}

/** Ids of rows, in their order. */
export const idsOf = (rows: readonly SourceFacts[]): readonly SourceId[] =>
  rows.map(({ source }) => source.id)
