/** What a person does about what is missing: carrying it over, leaving it out, taking it in again. */
import { leaveOut, takeInAgain } from '../../shared/lab/beside-acts.ts'
import type { PartId, ProcedureId } from '../../shared/lab/ids.ts'
import type { CarryWay } from '../../shared/lab/model.ts'
import { fileOf } from '../../shared/journal/entry-facts.ts'
import { carryOmission } from '../../shared/procedure/coverage/landing.ts'
import { numberOf } from '../../shared/procedure/rows/numbers.ts'
import { offerUndo } from '../store/gestures.ts'
import { stepsOf } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import type { CoverageModel, LeftOutItem, MissingItem } from './model.ts'

/** What is missing as the project stands now, with all that is being typed. */
export type Fresh = () => Promise<CoverageModel | null>

/**
 * Carries something over as a new step behind the one that holds what was done before it.
 * @returns the new part; null where nothing was done
 */
export async function carryOver(
  workspace: Workspace,
  fresh: Fresh,
  id: ProcedureId,
  item: string,
  way: CarryWay,
): Promise<PartId | null> {
  const found = await findOpen(workspace, fresh, item)
  const view = workspace.requireView()
  const procedure = view.procedures.get(id)
  const entry = found && view.entries.get(found.entry)
  if (!found || !entry || !procedure) return null
  const lab = workspace.requireLab()
  const standing = await lab.queries.standing(entry.id)
  if (!standing || standing.text !== view.texts.get(entry.id)) return refuse(workspace)
  const steps = stepsOf(view, id)
  const after = found.after ? (view.steps.get(found.after) ?? null) : null
  const file = found.kind === 'file' ? fileOf(entry, view.marks.get(entry.id)) : null
  const carried = carryOmission(
    lab.surroundings,
    { lab: lab.id, entry, standing, range: found.range, place: found.place, file },
    { procedure, steps, after },
    way,
  )
  if (!carried.ok) return refuse(workspace, carried.sentence)
  const { change, node } = carried.value
  if (!(await workspace.commit(change))) return null
  const now = workspace.requireView()
  const step = now.parts.get(node.id)?.step ?? null
  offerUndo(workspace, `Carried over. It is step ${numberOf(stepsOf(now, id), step)} now.`, change.id)
  return node.id as PartId
}

function refuse(
  workspace: Workspace,
  sentence = 'The entry changed meanwhile in another window. Nothing was carried.',
): null {
  workspace.say('notice', sentence)
  return null
}

/** Says why something needs no counterpart. @returns whether it was done */
export async function leaveOutNow(
  workspace: Workspace,
  fresh: Fresh,
  procedure: ProcedureId,
  item: string,
  reason: string,
): Promise<boolean> {
  const found = await findOpen(workspace, fresh, item)
  if (!found) return false
  const { entry, command } = found
  const { change } = leaveOut(workspace.requireLab().surroundings, procedure, { entry, command }, reason)
  if (!(await workspace.commit(change))) return false
  offerUndo(workspace, 'Left out, with its reason.', change.id)
  return true
}

/** @returns whether it was done */
export async function takeIn(workspace: Workspace, { says }: LeftOutItem): Promise<boolean> {
  const { view } = workspace.state
  const standing = view?.leftOut.get(says.id)
  if (!standing) return false
  const change = takeInAgain(workspace.requireLab().surroundings, standing)
  if (!(await workspace.commit(change))) return false
  offerUndo(workspace, 'Taken in again: it is listed as missing.', change.id)
  return true
}

/** What is listed is of a moment ago; this is so now. */
async function findOpen(workspace: Workspace, fresh: Fresh, item: string): Promise<MissingItem | null> {
  let now: CoverageModel | null
  try {
    now = await fresh()
  } catch (error) {
    console.error(error)
    workspace.say('problem', 'What is missing could not be worked out anew. Nothing was changed; try again.')
    return null
  }
  const found = [...(now?.missing ?? []), ...(now?.unsure ?? [])].find(({ id }) => id === item)
  if (!found) workspace.say('notice', 'It is not missing any more. Nothing was changed.')
  return found ?? null
}
