/** What a person sets on an entry after it was written, each as a mark of its own. */
import { fileOf, happenedOf, outcomeSet, placeOf } from '../../../shared/journal/entry-facts.ts'
import { tickSays, type ListedItem } from '../../../shared/journal/ticks.ts'
import { isSame } from '../../../shared/lab/fields.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import type { Entry, FileState, Mark, Outcome, Piece, Place } from '../../../shared/lab/model.ts'
import { mark } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'

function marksOf(workspace: Workspace, { id }: Entry): readonly Mark[] {
  return workspace.requireView().marks.get(id) ?? []
}

/** @param command the identities of one command's characters; null for the entry as a whole */
export async function setOutcome(
  workspace: Workspace,
  entry: Entry,
  set: Outcome | null,
  command: readonly Piece[] | null = null,
): Promise<void> {
  const was = outcomeSet(marksOf(workspace, entry), command)
  if (was !== set) await mark(workspace, [{ entry: entry.id, says: { kind: 'outcome', command, set, was } }])
}

export async function setPlace(workspace: Workspace, entry: Entry, set: Place | null): Promise<void> {
  const was = placeOf(entry, marksOf(workspace, entry))
  if (!isSame(was, set)) await mark(workspace, [{ entry: entry.id, says: { kind: 'place', set, was } }])
}

export async function setHappened(workspace: Workspace, entry: Entry, set: Moment | null): Promise<void> {
  const was = happenedOf(entry, marksOf(workspace, entry))
  if (was !== set) await mark(workspace, [{ entry: entry.id, says: { kind: 'happened', set, was } }])
}

export async function setFile(workspace: Workspace, entry: Entry, set: FileState): Promise<void> {
  const was = fileOf(entry, marksOf(workspace, entry))
  if (was && !isSame(was, set)) await mark(workspace, [{ entry: entry.id, says: { kind: 'file', set, was } }])
}

export async function tick(workspace: Workspace, entry: Entry, item: ListedItem): Promise<void> {
  await mark(workspace, [{ entry: entry.id, says: tickSays(item) }])
}
