import type { EntryId } from '../../../shared/lab/ids.ts'
import type { Workspace } from '../../store/workspace.ts'
import type { JournalStore } from './journalState.ts'

/** Traces the words that are selected in the entry, or all of it. */
export function traceEntry(workspace: Workspace, store: JournalStore, id: EntryId): void {
  const { selected } = store.getState()
  const ranges = selected?.id === id ? { ranges: [selected.range] } : {}
  workspace.set({ traced: { kind: 'entry', id, ...ranges } })
}
