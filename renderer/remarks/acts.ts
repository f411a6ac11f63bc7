/** What a person does with remarks on steps, as calls on the workspace. */
import { addRemark, changeRemark, settleRemark } from '../../shared/lab/beside-acts.ts'
import type { Remark, Step } from '../../shared/lab/model.ts'
import { offerUndo } from '../store/gestures.ts'
import type { Workspace } from '../store/workspace.ts'

/** @returns whether it was written */
export async function writeRemark(workspace: Workspace, step: Step, text: string): Promise<boolean> {
  const { change } = addRemark(workspace.requireLab().surroundings, step, text)
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, 'Remark added.', change.id)
  return isDone
}

export function rewordRemark(workspace: Workspace, remark: Remark, text: string): Promise<boolean> {
  return workspace.commit(changeRemark(workspace.requireLab().surroundings, remark, text))
}

/** Settles a remark, or opens it again. */
export async function setSettled(workspace: Workspace, remark: Remark, isSettled: boolean): Promise<boolean> {
  const change = settleRemark(workspace.requireLab().surroundings, remark, isSettled)
  const isDone = await workspace.commit(change)
  if (isDone)
    offerUndo(workspace, isSettled ? 'Settled. The remark stays readable.' : 'Open again.', change.id)
  return isDone
}
