/** What one line of the journal needs to know, taken from the window's state. */
import { useMemo } from 'react'
import type { EntryId } from '../../../shared/lab/ids.ts'
import type { EntryTags, Link, Mark, Range, Revision } from '../../../shared/lab/model.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import { linkIndexOf } from './origins.ts'

const noLinks: readonly Link[] = []
const noRevisions: readonly Revision[] = []
const noEntryMarks: readonly Mark[] = []
const noRanges: readonly Range[] = []

export function useText(id: EntryId): string {
  return useWorkspaceState(({ view }) => view?.texts.get(id) ?? '')
}

export function useIsWithdrawn(id: EntryId): boolean {
  return useWorkspaceState(({ view }) => view?.withdrawn.has(id) ?? false)
}

export function useAmendments(id: EntryId): readonly Revision[] {
  return useWorkspaceState(({ view }) => view?.amendments.get(id) ?? noRevisions)
}

/** An entry's tags; null where it never had any. */
export function useEntryTags(id: EntryId): EntryTags | null {
  return useWorkspaceState(({ view }) => view?.entryTags.get(id) ?? null)
}

/** What was set on an entry since it was written, in order. */
export function useEntryMarks(id: EntryId): readonly Mark[] {
  return useWorkspaceState(({ view }) => view?.marks.get(id) ?? noEntryMarks)
}

/** The links that lead from an entry to where it came from. */
export function useOrigins(id: EntryId): readonly Link[] {
  return useWorkspaceState(({ view }) => (view && linkIndexOf(view.links).from.get(id)) ?? noLinks)
}

/** The links that lead to an entry from what came of it. */
export function useOutcomes(id: EntryId): readonly Link[] {
  return useWorkspaceState(({ view }) => (view && linkIndexOf(view.links).to.get(id)) ?? noLinks)
}

/** The words that are marked in an entry; null where the person did not go to it last. */
export function useMarks(id: EntryId): readonly Range[] | null {
  const focus = useWorkspaceState((state) => (state.focus?.node.id === id ? state.focus : null))
  return useMemo(() => (focus ? (focus.ranges.length > 0 ? focus.ranges : noRanges) : null), [focus])
}
