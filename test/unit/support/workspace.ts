/** A window's workspace over a lab in memory, with one project open. */
import { LabRegistry } from '../../../renderer/db/labs.ts'
import { Workspace, type WorkspaceParts } from '../../../renderer/store/workspace.ts'
import { addProject } from '../../../shared/lab/acts.ts'
import type { WindowId } from '../../../shared/lab/ids.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from './lab.ts'

/** @param titles of the projects; the last one is open */
export async function openTestWorkspace(titles: readonly string[] = ['Mast']) {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const made = titles.map((title) => addProject(around, { title, aim: '', status: 'planned' }))
  await lab.committer.commitAll(made.map(({ change }) => change))
  const parts = {
    registry: new LabRegistry(memoryStorage()),
    openLab: () => Promise.resolve(lab),
    window: around.ids.make<WindowId>(),
  }
  // These tests ask nothing of the host.
  const workspace = new Workspace(parts as unknown as WorkspaceParts)
  await workspace.openLab(lab.id)
  return { workspace, lab, projects: made.map(({ project }) => project) }
}
