import type { EntryId, ProjectId } from '../../shared/lab/ids.ts'
import type { Workspace } from './workspace.ts'

/** Goes to an entry; opens its project first where that is another one. The panel that is open stays. */
export async function goToEntry(
  workspace: Workspace,
  { id, project }: { readonly id: EntryId; readonly project: ProjectId },
): Promise<void> {
  const { view, panel } = workspace.state
  if (view?.project !== project) {
    await workspace.openProject(project)
    workspace.set({ panel })
  }
  workspace.goTo({ kind: 'entry', id })
}
