/** Several rows that are chosen to be moved or removed together. */
import { moveSteps, removeSteps } from '../../../shared/lab/acts.ts'
import type { ProcedureId, StepId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { numberOf } from '../../../shared/procedure/rows/numbers.ts'
import { chosenRows, moveOfRows, neighbourOfRows } from '../../../shared/procedure/rows/order.ts'
import { offerUndo } from '../../store/gestures.ts'
import { partsOfStep, stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { setPane, usePane } from './paneStore.ts'

/** The rows that are chosen now, in their order; none unless there are several, since a row is moved without being chosen. */
export function pickedIn(steps: readonly Step[], picked = usePane.getState().picked): Step[] {
  if (!picked || picked.from === picked.to) return []
  return chosenRows(steps, picked.from, picked.to)
}

/** Chooses up to a row, from where choosing began or else from the row that is at hand. */
export function pickTo(workspace: Workspace, row: Step): void {
  const { picked, current } = usePane.getState()
  const steps = stepsOf(workspace.requireView(), row.procedure)
  const isThere = (id: StepId | null | undefined): id is StepId => steps.some((step) => step.id === id)
  const from = [picked?.from, current].find(isThere) ?? row.id
  setPane({ picked: { from, to: row.id }, wanted: { kind: 'step', id: row.id } })
  sayPicked(steps)
}

/** Chooses one row more above (-1) or below (1). */
export function pickNext(workspace: Workspace, row: Step, by: -1 | 1): void {
  const steps = stepsOf(workspace.requireView(), row.procedure)
  const next = steps[steps.findIndex(({ id }) => id === row.id) + by]
  if (next) pickTo(workspace, next)
}

export function pickAll(workspace: Workspace, procedure: ProcedureId): void {
  const steps = stepsOf(workspace.requireView(), procedure)
  const [first, last] = [steps[0], steps.at(-1)]
  if (!first || !last) return
  setPane({ picked: { from: first.id, to: last.id } })
  sayPicked(steps)
}

export function pickNone(): void {
  if (usePane.getState().picked) setPane({ picked: null })
}

function sayPicked(steps: readonly Step[]): void {
  const rows = pickedIn(steps)
  setPane({ said: rows.length === 0 ? 'One row.' : `${wordsOfRows(steps, rows)} chosen.` })
}

/** "12 rows, step 2 to step 9". */
export function wordsOfRows(steps: readonly Step[], rows: readonly Step[]): string {
  const nameOf = (row: Step | undefined): string => {
    const number = row ? numberOf(steps, row.id) : ''
    return number === '' ? 'a section' : `step ${number}`
  }
  return `${rows.length} rows, ${nameOf(rows[0])} to ${nameOf(rows.at(-1))}`
}

/** Moves the chosen rows one place up (-1) or down (1), by one Change. */
export async function movePicked(workspace: Workspace, procedure: ProcedureId, by: -1 | 1): Promise<void> {
  const steps = stepsOf(workspace.requireView(), procedure)
  const rows = pickedIn(steps)
  if (rows.length === 0) return
  const after = neighbourOfRows(steps, rows, by)
  if (after === undefined)
    return setPane({ said: by === -1 ? 'They stand at the start.' : 'They stand at the end.' })
  await moveRowsBehind(workspace, rows, after)
}

/** Moves rows that stand together behind another (null: to the head). @returns whether they moved */
export async function moveRowsBehind(
  workspace: Workspace,
  rows: readonly Step[],
  after: Step | null,
): Promise<boolean> {
  const { procedure } = rows[0]!
  const steps = stepsOf(workspace.requireView(), procedure)
  const move = moveOfRows(steps, rows, after)
  const moving = new Set(rows.map(({ id }) => id))
  const change = move && moveSteps(workspace.requireLab().surroundings, steps, moving, move.after)
  if (!change || !(await workspace.commit(change))) return false
  const now = stepsOf(workspace.requireView(), procedure)
  const moved = now.filter(({ id }) => moving.has(id))
  const { current } = usePane.getState()
  setPane({
    said: `Moved. They are ${wordsOfRows(now, moved)} now.`,
    ...(current ? { wanted: { kind: 'step', id: current } } : {}),
  })
  return true
}

/** Takes the chosen rows away, by one Change that is offered to be taken back. */
export async function removePicked(workspace: Workspace, procedure: ProcedureId): Promise<void> {
  await workspace.flushTexts()
  const view = workspace.requireView()
  const steps = stepsOf(view, procedure)
  const rows = pickedIn(steps)
  if (rows.length === 0) return
  const { queries, surroundings } = workspace.requireLab()
  const parts = rows.flatMap(({ id }) => [...partsOfStep(view, id).values()])
  const change = removeSteps(surroundings, rows, await queries.standingParts(parts))
  if (!(await workspace.commit(change))) return
  offerUndo(workspace, `${rows.length} rows removed.`, change.id)
  const at = steps.indexOf(rows[0]!)
  const next = steps[at + rows.length] ?? steps[at - 1]
  setPane({
    picked: null,
    editing: null,
    current: next?.id ?? null,
    wanted: next ? { kind: 'step', id: next.id } : { kind: 'new step' },
  })
}
