/** Marking a version of a procedure, as a call on the workspace. */
import { markVersion } from '../../shared/lab/beside-acts.ts'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { offerUndo } from '../store/gestures.ts'
import { parametersOf, stepsOf, versionsOf } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'

/** @param line what changed @returns whether it was marked */
export async function markVersionNow(workspace: Workspace, id: ProcedureId, line: string): Promise<boolean> {
  await workspace.flushTexts()
  const view = workspace.requireView()
  const procedure = view.procedures.get(id)
  if (!procedure) return false
  const { queries, surroundings } = workspace.requireLab()
  const own = [...view.parts.values()].filter((part) => part.procedure === id)
  const standing = await Promise.all(
    own.map(async (part) => ({ part, revision: (await queries.standing(part.id))?.revision })),
  )
  const parts = standing.flatMap(({ part, revision }) => (revision ? [{ part, revision }] : []))
  const last = versionsOf(view, id).at(-1)?.number ?? 0
  const whole = { procedure, steps: stepsOf(view, id), parts, parameters: [...parametersOf(view, id)] }
  const { version, change } = markVersion(surroundings, whole, last, line)
  if (!(await workspace.commit(change))) return false
  offerUndo(workspace, `Version ${version.number} is marked.`, change.id)
  return true
}
