/** Cutting rows and parts, and putting them elsewhere. They stand where they stood until then, so nothing is lost meanwhile. */
import type { Part, Range, Step } from '../../../shared/lab/model.ts'
import { stretchesOf, type CutWords } from '../../../shared/procedure/moving/cut.ts'
import { whyNotMovePart } from '../../../shared/procedure/moving/join.ts'
import { numberOf } from '../../../shared/procedure/rows/numbers.ts'
import { moveOf, moveOfRows } from '../../../shared/procedure/rows/order.ts'
import type { TextSession } from '../../editor/textSession.ts'
import { moveStepBehind, offerUndo } from '../../store/gestures.ts'
import { changeOfPartMove, changeOfPaste } from '../../store/movingWords.ts'
import { partsOfStep, stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { sayPlaceOf } from './acts.ts'
import { setPane, stayingAtRow, usePane } from './paneStore.ts'
import { moveRowsBehind, pickedIn, wordsOfRows } from './picked.ts'
import { nameOfPart } from './words.ts'

/** Cuts a row, or all that are chosen where it is one of them. */
export function cutRow(workspace: Workspace, row: Step): void {
  const picked = pickedIn(stepsOf(workspace.requireView(), row.procedure))
  const rows = picked.some(({ id }) => id === row.id) ? picked : [row]
  setPane({ cut: { kind: 'rows', rows: rows.map(({ id }) => id) }, picked: null })
  setPane({ said: `${wordsOfCut(workspace) ?? 'Nothing'} cut.` })
}

export function cutPart(workspace: Workspace, { id }: Part): void {
  setPane({ cut: { kind: 'part', part: id } })
  setPane({ said: `${wordsOfCut(workspace) ?? 'Nothing'} cut.` })
}

export function callOffCut(): void {
  setPane({ cut: null, said: 'Nothing is cut any more.' })
}

/** What is cut, as a sentence begins: "Step 3", "Do of step 3", "2 rows, step 3 to step 4"; null where nothing is. */
export function wordsOfCut(workspace: Workspace): string | null {
  const { rows, part } = cutThings(workspace)
  const view = workspace.requireView()
  if (part?.step) {
    const number = numberOf(stepsOf(view, part.procedure), part.step)
    return nameOfPart(part.kind, number)
  }
  if (rows.length === 0) return null
  const steps = stepsOf(view, rows[0]!.procedure)
  if (rows.length > 1) return wordsOfRows(steps, rows)
  const number = numberOf(steps, rows[0]!.id)
  return number === '' ? 'The section' : `Step ${number}`
}

/** What is cut and still stands. */
function cutThings(workspace: Workspace): { readonly rows: readonly Step[]; readonly part: Part | null } {
  const { cut } = usePane.getState()
  const { steps, parts } = workspace.requireView()
  if (cut?.kind === 'part') return { rows: [], part: parts.get(cut.part) ?? null }
  const rows = (cut?.rows ?? []).flatMap((id) => steps.get(id) ?? [])
  return { rows, part: null }
}

/** Why what is cut cannot be put at a row, or null where it can. */
export function whyNotPut(workspace: Workspace, at: Step): string | null {
  const { rows, part } = cutThings(workspace)
  if (part) return whyNotMovePart(part, at, partsOfStep(workspace.requireView(), at.id).has(part.kind))
  const [row] = rows
  if (!row) return 'Nothing is cut.'
  if (row.procedure !== at.procedure) return 'It belongs to another procedure.'
  const steps = stepsOf(workspace.requireView(), at.procedure)
  const move = rows.length > 1 ? moveOfRows(steps, rows, at) : moveOf(steps, row, at)
  return move ? null : 'It stands there already.'
}

/** Puts what is cut at a row: rows behind it, a part into it. One Change. */
export async function putCut(workspace: Workspace, at: Step): Promise<void> {
  const why = whyNotPut(workspace, at)
  if (why !== null) return setPane({ said: why })
  const { rows, part } = cutThings(workspace)
  if (part) return putPart(workspace, part, at)
  const stays = stayingAtRow()
  if (rows.length > 1) {
    if (await moveRowsBehind(workspace, rows, at)) setPane({ cut: null })
    return
  }
  if (!(await moveStepBehind(workspace, rows[0]!, at))) return
  setPane({ cut: null })
  sayPlaceOf(workspace, rows[0]!, stays())
}

async function putPart(workspace: Workspace, part: Part, at: Step): Promise<void> {
  await workspace.flushTexts()
  const own = partsOfStep(workspace.requireView(), at.id).get(part.kind) ?? null
  const change = await changeOfPartMove(workspace.requireLab(), part, at, own)
  if (!change.ok) return workspace.say('notice', change.sentence)
  const stays = stayingAtRow()
  if (!(await workspace.commit(change.value))) return
  const number = numberOf(stepsOf(workspace.requireView(), at.procedure), at.id)
  offerUndo(workspace, `Moved. It is ${lowered(nameOfPart(part.kind, number))} now.`, change.value.id)
  const { editing } = usePane.getState()
  setPane({
    cut: null,
    editing: own && editing === part.id ? null : editing,
    ...(stays() ? { current: at.id, wanted: { kind: 'part', id: (own ?? part).id } } : {}),
  })
}

const lowered = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1)

/** The words of a range of a part that is being typed, with where they stand. */
export function cutWordsOf(workspace: Workspace, part: Part, range: Range, session: TextSession): CutWords {
  const { revision, changes } = session.basis
  const links = [...workspace.requireView().links.values()].filter(({ newer }) => newer.node.id === part.id)
  return {
    lab: workspace.requireLab().id,
    part: part.id,
    revision,
    words: session.text.slice(range.start, range.end),
    stretches: stretchesOf(changes, range),
    links: links.map(({ id }) => id),
  }
}

/**
 * Puts cut words into a part at a place of its text, with their links.
 * @returns false where they cannot be known again, and are words like any others
 */
export async function putWords(
  workspace: Workspace,
  cut: CutWords,
  part: Part,
  offset: number,
): Promise<boolean> {
  await workspace.flushTexts()
  const change = await changeOfPaste(workspace.requireLab(), cut, part, offset)
  return change !== null && workspace.commit(change)
}
