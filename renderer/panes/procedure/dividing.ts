/** Splitting a step at the cursor, and joining two rows. */
import type { StepId } from '../../../shared/lab/ids.ts'
import type { Part, Step } from '../../../shared/lab/model.ts'
import { whyNotJoin } from '../../../shared/procedure/moving/join.ts'
import { whyNotSplit } from '../../../shared/procedure/moving/split.ts'
import { numberOf } from '../../../shared/procedure/rows/numbers.ts'
import { rowPlaces } from '../../../shared/procedure/rows/places.ts'
import { offerUndo } from '../../store/gestures.ts'
import { changeOfJoin, changeOfSplit, type RowToJoin } from '../../store/movingWords.ts'
import { partsOfStep, remarksOf, stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { openText, takingKeys } from './acts.ts'
import { setPane, usePane } from './paneStore.ts'

/**
 * Makes a step of what stands behind the cursor of a text that is being typed. Typing goes on at the start of the new one.
 * @param text as it shows @param at a place in it
 */
export async function splitAt(workspace: Workspace, part: Part, text: string, at: number): Promise<void> {
  const why = whyNotSplit(part, partsIn(workspace, part), text, at)
  if (why !== null || part.step === null) return workspace.say('notice', `${why} Nothing was changed.`)
  let made: StepId | null = null
  const early = { text: '', isAtStart: true }
  const opened = await takingKeys(workspace, `split of ${part.id}`, early, async () => {
    await workspace.flushTexts()
    const split = await splitNow(workspace, part, at)
    made = split?.step.id ?? null
    return split?.part.id ?? null
  })
  if (opened && made) openText(opened, made)
}

async function splitNow(workspace: Workspace, part: Part, at: number) {
  const view = workspace.requireView()
  const step = part.step === null ? undefined : view.steps.get(part.step)
  if (!step) return null
  const steps = stepsOf(view, part.procedure)
  const split = await changeOfSplit(workspace.requireLab(), {
    step,
    steps,
    parts: partsIn(workspace, part),
    part,
    at,
  })
  if (!split.ok) {
    workspace.say('notice', split.sentence)
    return null
  }
  if (!(await workspace.commit(split.value.change))) return null
  const number = numberOf(stepsOf(workspace.requireView(), part.procedure), split.value.step.id)
  offerUndo(workspace, `Split. The rest is step ${number} now.`, split.value.change.id)
  return split.value
}

const partsIn = (workspace: Workspace, { step }: Part): Part[] =>
  step === null ? [] : [...partsOfStep(workspace.requireView(), step).values()]

/** The row that a row would be joined with; undefined at an end. */
function neighbourOf(workspace: Workspace, row: Step, by: -1 | 1): Step | undefined {
  const steps = stepsOf(workspace.requireView(), row.procedure)
  return steps[steps.findIndex(({ id }) => id === row.id) + by]
}

function rowToJoin(workspace: Workspace, step: Step): RowToJoin {
  const view = workspace.requireView()
  const procedure = view.procedures.get(step.procedure)
  const places = rowPlaces({ place: procedure?.place ?? null }, stepsOf(view, step.procedure))
  const parts = [...partsOfStep(view, step.id).values()]
  return { step, parts, place: places.get(step.id)?.place ?? null }
}

/** The two rows, first the one that stays; null where there is no neighbour. */
function pairOf(workspace: Workspace, row: Step, by: -1 | 1): readonly [RowToJoin, RowToJoin] | null {
  const other = neighbourOf(workspace, row, by)
  if (!other) return null
  const [first, second] = by === 1 ? [row, other] : [other, row]
  return [rowToJoin(workspace, first), rowToJoin(workspace, second)]
}

/** Why a row cannot be joined with the one before (-1) or behind (1), or null where it can. */
export function whyNotJoinWith(workspace: Workspace, row: Step, by: -1 | 1): string | null {
  const pair = pairOf(workspace, row, by)
  if (!pair) return by === 1 ? 'No row stands behind it.' : 'No row stands before it.'
  const [first, second] = pair.map(({ parts, ...one }) => ({
    ...one,
    parts: parts.map((part) => ({ part })),
  }))
  return whyNotJoin(first!, second!)
}

/** Joins a row with the one before (-1) or behind (1); the keyboard goes to the joined step. */
export async function joinWith(workspace: Workspace, row: Step, by: -1 | 1): Promise<void> {
  await workspace.flushTexts()
  const why = whyNotJoinWith(workspace, row, by)
  const pair = pairOf(workspace, row, by)
  if (why !== null || !pair) return workspace.say('notice', why ?? 'The row is gone.')
  const [first, second] = pair
  const view = workspace.requireView()
  const number = numberOf(stepsOf(view, row.procedure), first.step.id)
  const change = await changeOfJoin(
    workspace.requireLab(),
    first,
    second,
    remarksOf(view, second.step.id),
    referringTo(workspace, first, second),
  )
  if (!change.ok) return workspace.say('notice', change.sentence)
  const { current } = usePane.getState()
  if (!(await workspace.commit(change.value))) return
  offerUndo(workspace, `Joined. Both are step ${number} now.`, change.value.id)
  const now = usePane.getState()
  const isStaying = now.current === current || now.current === second.step.id
  const gone = new Set<string>(second.parts.map(({ id }) => id))
  setPane({
    picked: null,
    ...(now.editing !== null && gone.has(now.editing) ? { editing: null } : {}),
    ...(isStaying ? { current: first.step.id, wanted: { kind: 'step', id: first.step.id } } : {}),
  })
}

/** The parts of other rows whose texts speak of the second. */
function referringTo(workspace: Workspace, first: RowToJoin, second: RowToJoin) {
  const { parts, texts } = workspace.requireView()
  const own = new Set<string>([...first.parts, ...second.parts].map(({ id }) => id))
  return [...parts.keys()]
    .map((id) => id as Part['id'])
    .filter((id) => !own.has(id) && texts.get(id)?.includes(second.step.id))
}
