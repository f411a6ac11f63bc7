/** What a person does in the procedure pane, as calls that keep the pane's own state in step. */
import type { Part, ProcedurePartKind, Step, StepLevel, StepPartKind } from '../../../shared/lab/model.ts'
import type { PartId, ProcedureId, StepId } from '../../../shared/lab/ids.ts'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import type { LandingPlace } from '../../../shared/distil/landing.ts'
import { EarlyKeys, type EarlyText } from '../../editor/earlyKeys.ts'
import { giveBack } from '../../editor/givingBack.ts'
import type { TextSession } from '../../editor/textSession.ts'
import { writeFragment } from '../../editor/fragments.ts'
import { countSteps, numberOf } from '../../../shared/procedure/rows/numbers.ts'
import { whyNotIndent, whyNotOutdent } from '../../../shared/procedure/rows/order.ts'
import { rowsUnder } from '../../../shared/lab/acts.ts'
import {
  beginOwnPart,
  beginPartOf,
  beginProcedure,
  beginStep,
  dropPart,
  dropStep,
  nudgeStep,
  sayOfStep,
} from '../../store/gestures.ts'
import { partsOfStep, stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { setPane, stayingAtRow, usePane, type WantedFocus } from './paneStore.ts'

/** What is being made ready to be typed, with what takes the keys for it. */
const opening = new Map<string, EarlyKeys | null>()
/** Grows whenever a text is opened or gone back to: who was about to leave one then does so no more. */
let openings = 0

/** Shows a text's editor. */
export function openText(part: PartId, current?: StepId): void {
  openings += 1
  setPane({ editing: part, ...(current ? { current } : {}) })
}

/** Goes on typing in the text that is open, though it may be about to be left. */
function goOnTyping(part: PartId): void {
  openings += 1
  const taker = `.st-procedure .st-editor[data-node="${part}"] :is(.cm-content, .st-early)`
  document.querySelector<HTMLElement>(taker)?.focus({ preventScroll: true })
}

/** Titles and headings have one line. */
export const isOneLine = (part: Part | undefined): boolean =>
  part?.kind === 'title' || part?.kind === 'heading'

/** Opens a part's text for typing. What was being typed is committed first, so that it shows as it was left. */
export async function activate(workspace: Workspace, part: PartId): Promise<void> {
  const { editing } = usePane.getState()
  if (editing === part) return goOnTyping(part)
  if (editing === null) return openText(part)
  const { parts, texts } = workspace.requireView()
  const early = { text: texts.get(part) ?? '', isOneLine: isOneLine(parts.get(part)) }
  const opened = await takingKeys(workspace, part, early, async () => {
    await workspace.flushTexts()
    return part
  })
  if (opened) openText(opened)
}

/**
 * Takes the keys that are pressed while a text is being made ready, and leaves them to its editor.
 * @param name of the text; asked for again while it is being opened, as by a double click, it goes on taking the keys
 * @returns null where there is nothing to open
 */
export async function takingKeys(
  workspace: Workspace,
  name: string,
  text: Omit<EarlyText, 'label'>,
  makeReady: () => Promise<PartId | null>,
): Promise<PartId | null> {
  if (opening.has(name)) {
    opening.get(name)?.goOn()
    return null
  }
  const procedure = document.querySelector<HTMLElement>('.st-procedure')
  const early = { label: 'The text that is being opened', ...text }
  const keys = procedure && new EarlyKeys(procedure, early, (words) => giveBack(workspace, words))
  opening.set(name, keys)
  let part: PartId | null = null
  try {
    part = await makeReady()
  } finally {
    opening.delete(name)
    if (part) keys?.leaveTo(part)
    else keys?.end()
  }
  return part
}

const empty = { text: '' } as const
/** Every new step is another one, however soon it is asked for. */
let begun = 0

/** Leaves the text that is being typed. Where it could not be committed it stays open, so that nothing seems lost. */
export async function leave(
  workspace: Workspace,
  part: PartId,
  session: TextSession | null,
  wanted: WantedFocus | null,
): Promise<void> {
  // A text that is taken off the screen loses the focus too; by then another may be open, or the same one again.
  if (usePane.getState().editing !== part) return
  const before = openings
  await session?.flush()
  await workspace.catchUp()
  if (session?.hasUnsaved || openings !== before || usePane.getState().editing !== part) return
  setPane({ editing: null, ...(wanted ? { wanted } : {}) })
}

export async function addStepAfter(
  workspace: Workspace,
  procedure: ProcedureId,
  after: Step | null,
  level?: StepLevel,
): Promise<void> {
  let step: StepId | null = null
  const early = { ...empty, isOneLine: level === 'section' }
  const part = await takingKeys(workspace, `step ${++begun}`, early, async () => {
    const made = await beginStep(workspace, procedure, after, level)
    step = made?.step ?? null
    return made?.id ?? null
  })
  if (part && step) openText(part, step)
}

/** Adds a step or a section behind the last row. */
export function addStepAtEnd(
  workspace: Workspace,
  procedure: ProcedureId,
  level: 'step' | 'section' = 'step',
): Promise<void> {
  const last = stepsOf(workspace.requireView(), procedure).at(-1) ?? null
  return addStepAfter(workspace, procedure, last, level)
}

/** Adds a sub-step behind the last one of a step, or behind a sub-step. */
export function addSubStep(workspace: Workspace, step: Step): Promise<void> {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  return addStepAfter(workspace, step.procedure, rowsUnder(steps, step).at(-1)!, 'sub-step')
}

/** Makes a step a sub-step of the one before (1), or a sub-step a step (-1), and says what it is now. */
export async function shiftLevel(workspace: Workspace, step: Step, by: -1 | 1): Promise<void> {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  const why = by === 1 ? whyNotIndent(steps, step) : whyNotOutdent(step)
  if (why !== null) return setPane({ said: why })
  const stays = stayingAtRow()
  if (!(await sayOfStep(workspace, step, { level: by === 1 ? 'sub-step' : 'step' }))) return
  sayPlaceOf(workspace, step, stays())
}

/** Opens a part of the procedure itself for typing, and makes it first where there is none. */
export async function openOwnPart(
  workspace: Workspace,
  procedure: ProcedureId,
  kind: ProcedurePartKind,
): Promise<void> {
  const part = await takingKeys(workspace, `${kind} of ${procedure}`, empty, async () => {
    await workspace.flushTexts()
    return (await beginOwnPart(workspace, procedure, kind))?.id ?? null
  })
  if (part) openText(part)
}

/** Opens a step's part of a kind for typing, and makes it first where there is none. */
export async function openPartOf(workspace: Workspace, step: Step, kind: StepPartKind): Promise<void> {
  const existing = partsOfStep(workspace.requireView(), step.id).get(kind)
  if (existing) return activate(workspace, existing.id)
  const part = await takingKeys(workspace, `${kind} of ${step.id}`, empty, async () => {
    const made = await beginPartOf(workspace, step, kind)
    await workspace.flushTexts()
    return made?.id ?? null
  })
  if (part) openText(part)
}

/** Moves a step by one place and says where it is now; the keyboard stays on it. */
export async function moveBy(workspace: Workspace, step: Step, by: -1 | 1): Promise<void> {
  const stays = stayingAtRow()
  if (await nudgeStep(workspace, step, by)) sayPlaceOf(workspace, step, stays())
}

/** @param isFollowed whether the keyboard is to be on the step, wherever it stands now */
export function sayPlaceOf(workspace: Workspace, step: Step, isFollowed: boolean): void {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  const number = numberOf(steps, step.id)
  const now =
    number === ''
      ? 'The section is at another place now.'
      : `It is step ${number} of ${countSteps(steps)} now.`
  const said = `Moved. ${now}`
  setPane(isFollowed ? { said, current: step.id, wanted: { kind: 'step', id: step.id } } : { said })
}

/** Takes a row away with all under it, or a section's heading alone; the keyboard goes on to what takes its place. */
export async function takeStepAway(workspace: Workspace, step: Step, isAlone = false): Promise<void> {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  const at = steps.findIndex(({ id }) => id === step.id)
  const count = isAlone ? 1 : rowsUnder(steps, step).length
  const next = steps[at + count] ?? steps[at - 1]
  if (!(await dropStep(workspace, step, isAlone))) return
  setPane({
    editing: null,
    current: next?.id ?? null,
    wanted: next ? { kind: 'step', id: next.id } : { kind: 'new step' },
  })
}

export async function takePartAway(workspace: Workspace, part: Part): Promise<void> {
  if (!(await dropPart(workspace, part))) return
  const { editing } = usePane.getState()
  setPane({
    editing: editing === part.id ? null : editing,
    ...(part.step ? { wanted: { kind: 'step', id: part.step } } : {}),
  })
}

export async function beginTitled(workspace: Workspace, title: string): Promise<boolean> {
  const procedure = await beginProcedure(workspace, title)
  if (procedure) setPane({ newTitle: null, wanted: { kind: 'new step' } })
  return procedure !== null
}

/** Begins a procedure, named like its project until the person names it, whose first step is the place. */
export async function beginFirstPlace(
  workspace: Workspace,
  kind: StepPartKind | null,
): Promise<LandingPlace | null> {
  const { projects, view } = workspace.state
  const project = projects.find(({ id }) => id === view?.project)
  const procedure = await beginProcedure(workspace, project?.title ?? '')
  return procedure && { at: 'new step', procedure, after: null, ...(kind ? { kind } : {}) }
}

/** Copies a fragment, so that it can be pasted into a part with its link, or elsewhere as plain words. */
export function copyFragment(workspace: Workspace, fragment: Fragment): void {
  const onCopy = (event: ClipboardEvent): void => {
    if (!event.clipboardData) return
    event.preventDefault()
    event.stopImmediatePropagation()
    writeFragment(event.clipboardData, fragment)
  }
  document.addEventListener('copy', onCopy, { capture: true, once: true })
  const isCopied = document.execCommand('copy')
  document.removeEventListener('copy', onCopy, { capture: true })
  workspace.say(
    isCopied ? 'done' : 'problem',
    isCopied ? 'Copied.' : 'It could not be copied. Select the words and press Ctrl+C.',
  )
}
