/** What a person takes of a draft becomes steps, by one Change. */
import { addProcedure, makeChange, type StandingText } from '../../shared/lab/acts.ts'
import type { Operation } from '../../shared/lab/change.ts'
import type { EntryId, ProcedureId, StepId } from '../../shared/lab/ids.ts'
import { isSame } from '../../shared/lab/fields.ts'
import type { Procedure, Step } from '../../shared/lab/model.ts'
import { acceptDraft } from '../../shared/procedure/draft/accept.ts'
import { landingBehind } from '../../shared/procedure/rows/order.ts'
import { offerUndo } from '../store/gestures.ts'
import { stepsOf } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import type { DraftItem, DraftModel } from './model.ts'

/** Where the steps go: a procedure, and the row behind which they come; null for its end. */
export interface DraftPlace {
  /** null for one that is begun with them. */
  readonly procedure: ProcedureId | null
  readonly after: StepId | null
}

export const changedSentence =
  'What you chose changed meanwhile. Nothing was added; look at the steps as they are proposed now.'

/**
 * Makes steps of proposed ones, as they were shown.
 * @param fresh the draft as the project stands now: what is not in it any more as it was shown makes nothing
 * @returns whether they were made
 */
export async function takeSteps(
  workspace: Workspace,
  fresh: () => Promise<DraftModel>,
  { procedure: id, after: behind }: DraftPlace,
  shown: readonly DraftItem[],
): Promise<boolean> {
  const now = await freshOrSay(workspace, fresh)
  if (!now) return false
  const rows = shown.flatMap((row) => now.rows.filter((one) => one.id === row.id && isSame(one, row)))
  if (rows.length < shown.length) return refuse(workspace, changedSentence)
  const view = workspace.requireView()
  const begun = id ? null : begin(workspace)
  const procedure = id ? view.procedures.get(id) : begun?.procedure
  if (!procedure) return refuse(workspace, 'The procedure is gone. Nothing was added.')
  const steps = id ? stepsOf(view, id) : []
  const texts = await standingTexts(workspace, rows)
  const accepted = acceptDraft(
    workspace.requireLab().surroundings,
    { procedure, steps, after: rowOf(steps, behind), textOf: (entry) => texts.get(entry) },
    rows,
  )
  if (!accepted.ok) return refuse(workspace, accepted.sentence)
  const operations = [...(begun?.operations ?? []), ...accepted.value.change.operations]
  const change = makeChange(workspace.requireLab().surroundings, 'draft steps', operations)
  if (!(await workspace.commit(change))) return false
  if (begun) workspace.set({ procedure: procedure.id })
  offerUndo(workspace, rows.length === 1 ? 'One step added.' : `${rows.length} steps added.`, change.id)
  return true
}

function refuse(workspace: Workspace, sentence: string): false {
  workspace.say('notice', sentence)
  return false
}

async function freshOrSay(
  workspace: Workspace,
  fresh: () => Promise<DraftModel>,
): Promise<DraftModel | null> {
  try {
    return await fresh()
  } catch (error) {
    console.error(error)
    workspace.say('problem', 'The steps could not be worked out anew. Nothing was added; try again.')
    return null
  }
}

/** A step never lands between another and its sub-steps. */
function rowOf(steps: readonly Step[], behind: StepId | null): Step | null {
  const after = behind ? (steps.find(({ id }) => id === behind) ?? null) : null
  return landingBehind(steps, after ?? steps.at(-1) ?? null, 'step')
}

/** A procedure named like its project, until the person names it. */
function begin(workspace: Workspace): {
  readonly procedure: Procedure
  readonly operations: readonly Operation[]
} {
  const { projects } = workspace.state
  const { project } = workspace.requireView()
  const title = projects.find(({ id }) => id === project)?.title ?? ''
  const { procedure, change } = addProcedure(workspace.requireLab().surroundings, project, title)
  return { procedure, operations: change.operations }
}

async function standingTexts(
  workspace: Workspace,
  rows: readonly DraftItem[],
): Promise<ReadonlyMap<string, StandingText>> {
  const { queries } = workspace.requireLab()
  const ids = new Set(
    rows.flatMap(({ parts }) => parts.flatMap(({ from }) => from.map(({ fragment }) => fragment.node.id))),
  )
  const found = await Promise.all(
    [...ids].map(async (id) => [id, await queries.standing(id as EntryId)] as const),
  )
  return new Map(found.flatMap(([id, text]) => (text ? [[id as string, text] as const] : [])))
}
