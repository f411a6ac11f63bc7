/** What a person does, as calls on the workspace: a pure function makes the Change, the workspace commits it and says so. */
import { nameOfPlace, type LandingPlace } from '../../shared/distil/landing.ts'
import type { Fragment } from '../../shared/distil/fragment.ts'
import {
  addEntries,
  addEntry,
  addOwnPart,
  addPart,
  addProcedure,
  addProject,
  addSource,
  addStep,
  answerProblem,
  beginPart,
  changePartFile,
  changeProcedure,
  changeSource,
  changeStep,
  makeChange,
  markEntries,
  moveSteps,
  newPart,
  positionAfter,
  removePart,
  removeSteps,
  rowsUnder,
  withdrawEntry,
  writeText,
  type CaptureInput,
  type EntryInput,
  type ProjectFields,
  type SourceInput,
  type StepFields,
} from '../../shared/lab/acts.ts'
import type { ChangeId, EntryId, ProcedureId, ProjectId } from '../../shared/lab/ids.ts'
import type {
  Blob,
  CarryWay,
  FileState,
  LinkNode,
  MarkSays,
  Part,
  Place,
  ProcedurePartKind,
  Source,
  Step,
  StepLevel,
  StepPartKind,
} from '../../shared/lab/model.ts'
import type { Act, StoredChange } from '../../shared/lab/change.ts'
import type { Result } from '../../shared/lab/result.ts'
import { changeBetween, toStorableText } from '../../shared/lab/text.ts'
import type { Carried } from '../../shared/distil/carry.ts'
import { landingBehind, levelBehind, moveOf, neighbourBehind } from '../../shared/procedure/rows/order.ts'
import { countRows } from '../../shared/procedure/rows/numbers.ts'
import { carryTo } from './carrying.ts'
import { partOfProcedure, partsOfStep, stepsOf } from './view.ts'
import type { Workspace } from './workspace.ts'

/** Carries a fragment to a place, says where it went and offers to take that back. */
export async function carryFragment(
  workspace: Workspace,
  fragment: Fragment,
  place: LandingPlace,
  way: CarryWay,
): Promise<Result<Carried>> {
  await workspace.flushTexts()
  const view = workspace.requireView()
  const steps = workspace.state.procedure ? stepsOf(view, workspace.state.procedure) : []
  const name = nameOfPlace(place, fragment, steps)
  const result = await carryTo(workspace.requireLab(), view, fragment, place, way)
  await workspace.catchUp()
  if (!result.ok) {
    workspace.say('problem', result.sentence)
    return result
  }
  const { change, node, link } = result.value
  offerUndo(workspace, `Carried. ${name}.`, change.id)
  workspace.goTo(
    node,
    link.newer.ranges.map(({ position }) => position),
  )
  return result
}

/**
 * Takes back one Change, or the newest that still holds. The text of an entry that was typed goes back to the composer;
 * entries that were carried, or taken from a log, from what was pasted or from photos, are withdrawn alone.
 */
export async function undo(workspace: Workspace, target?: ChangeId): Promise<void> {
  await workspace.flushTexts()
  const result = await workspace.requireLab().committer.undo(target)
  await workspace.catchUp()
  if (!result.ok) return workspace.say('notice', result.sentence)
  const { change } = result.value
  const withdrawn = withdrawnBy(change)
  const isTyped = withdrawn.length === 1 && (await firstActOf(workspace, change)) === 'add an entry'
  const isReturned = isTyped && returnToComposer(workspace, withdrawn[0]!)
  if (change.reverses) workspace.dismissAbout(change.reverses)
  const action = { word: 'Redo', onAct: () => void redo(workspace) }
  workspace.say('done', wordsOfUndo(withdrawn.length, isReturned), action, change.id)
}

function withdrawnBy({ operations }: StoredChange): EntryId[] {
  return operations.flatMap((one) =>
    one.op === 'put' && one.table === 'withdrawals' && one.record.withdrawn ? [one.record.entry] : [],
  )
}

/** What was done at first, before it was undone and redone any number of times. */
async function firstActOf(workspace: Workspace, change: StoredChange): Promise<Act> {
  let first = change
  while (first.reverses) {
    const before = await workspace.requireLab().queries.findChange(first.reverses)
    if (!before) break
    first = before
  }
  return first.act
}

function wordsOfUndo(withdrawn: number, isReturned: boolean): string {
  if (withdrawn === 0) return 'Undone.'
  if (withdrawn > 1) return `Withdrew ${withdrawn} entries. They stay readable.`
  const words = 'Withdrawn. The entry stays readable'
  return isReturned ? `${words}, and its text is back in the composer.` : `${words}.`
}

function returnToComposer(workspace: Workspace, entry: EntryId): boolean {
  const { view } = workspace.state
  const text = view?.texts.get(entry)
  const kind = view?.entries.get(entry)?.kind
  if (text === undefined || !kind) return false
  workspace.composerReturns.emit({ kind, text })
  return true
}

export async function redo(workspace: Workspace): Promise<void> {
  await workspace.flushTexts()
  const result = await workspace.requireLab().committer.redo()
  await workspace.catchUp()
  if (result.ok && result.value.change.reverses) workspace.dismissAbout(result.value.change.reverses)
  workspace.say(result.ok ? 'done' : 'notice', result.ok ? 'Redone.' : result.sentence)
}

export async function beginProject(workspace: Workspace, fields: ProjectFields): Promise<ProjectId | null> {
  const { change, project } = addProject(workspace.requireLab().surroundings, fields)
  if (!(await workspace.commit(change))) return null
  await workspace.openProject(project.id)
  return project.id
}

/** Withdraws an entry that stays readable, or brings it back; says so and offers to take that back. */
export async function setWithdrawn(
  workspace: Workspace,
  entry: EntryId,
  isWithdrawn: boolean,
): Promise<boolean> {
  const change = withdrawEntry(workspace.requireLab().surroundings, entry, isWithdrawn)
  const isDone = await workspace.commit(change)
  const words = isWithdrawn ? 'Withdrawn. The entry stays readable.' : 'The entry stands again.'
  if (isDone) offerUndo(workspace, words, change.id)
  return isDone
}

/** Writes an entry. Its draft goes in the same transaction. */
export async function writeEntry(
  workspace: Workspace,
  input: Omit<EntryInput, 'project'>,
  draftKey: string,
  answers: EntryId | null = null,
): Promise<boolean> {
  const { project } = workspace.requireView()
  const { change } = addEntry(workspace.requireLab().surroundings, { ...input, project }, answers)
  return workspace.commit(change, [draftKey])
}

/** Writes several entries by one act; says so and offers to take them back together. */
export async function writeEntries(
  workspace: Workspace,
  inputs: readonly Omit<EntryInput, 'project'>[],
  blobs: readonly Blob[] = [],
  words = inputs.length === 1 ? 'One entry added.' : `${inputs.length} entries added.`,
): Promise<boolean> {
  const { project } = workspace.requireView()
  const { surroundings } = workspace.requireLab()
  const { change } = addEntries(
    surroundings,
    inputs.map((input) => ({ ...input, project })),
    blobs,
  )
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, words, change.id)
  return isDone
}

/** Sets something on entries: ticks, outcomes, times, places. Nothing is said: it shows where it was set. */
export function mark(
  workspace: Workspace,
  marks: readonly { readonly entry: EntryId; readonly says: MarkSays }[],
): Promise<boolean> {
  return workspace.commit(markEntries(workspace.requireLab().surroundings, marks))
}

/** Says that a fix or decision ended a problem, and offers to take that back. */
export async function answer(
  workspace: Workspace,
  newer: EntryId,
  problem: EntryId,
  way: CarryWay,
): Promise<boolean> {
  const change = answerProblem(workspace.requireLab().surroundings, newer, problem, way)
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, 'The problem is answered.', change.id)
  return isDone
}

/** Adds a source to a project: the open one, unless the source was meant for another before that was opened. */
export async function keepSource(
  workspace: Workspace,
  input: Omit<SourceInput, 'projects' | 'capture'> & { readonly capture: CaptureInput | null },
  project: ProjectId = workspace.requireView().project,
): Promise<Source | null> {
  const { change, source } = addSource(workspace.requireLab().surroundings, { ...input, projects: [project] })
  return (await workspace.commit(change)) ? source : null
}

/** A source of the lab is used by the open project too, or no longer. */
export async function setSourceUse(workspace: Workspace, source: Source, isUsed: boolean): Promise<boolean> {
  const { project } = workspace.requireView()
  const others = source.projects.filter((id) => id !== project)
  const projects = isUsed ? [...others, project] : others
  return workspace.commit(changeSource(workspace.requireLab().surroundings, source, { projects }))
}

export async function beginProcedure(workspace: Workspace, title: string): Promise<ProcedureId | null> {
  const { project } = workspace.requireView()
  const { change, procedure } = addProcedure(workspace.requireLab().surroundings, project, title)
  if (!(await workspace.commit(change))) return null
  workspace.set({ procedure: procedure.id })
  return procedure.id
}

/**
 * A new empty row behind another, or at the head.
 * @param level a further sub-step among sub-steps, else a step, unless the person says another
 */
export async function beginStep(
  workspace: Workspace,
  procedure: ProcedureId,
  after: Step | null,
  level?: StepLevel,
): Promise<Part | null> {
  await workspace.flushTexts()
  const steps = stepsOf(workspace.requireView(), procedure)
  const wanted = level ?? levelBehind(steps, after?.id ?? null)
  const position = positionAfter(steps, landingBehind(steps, after, wanted))
  const { change, part } = addStep(workspace.requireLab().surroundings, procedure, position, wanted)
  return (await workspace.commit(change)) ? part : null
}

export async function beginPartOf(
  workspace: Workspace,
  step: Step,
  kind: StepPartKind,
): Promise<Part | null> {
  const existing = partsOfStep(workspace.requireView(), step.id).get(kind)
  if (existing) return existing
  const { change, part } = addPart(workspace.requireLab().surroundings, step, kind)
  return (await workspace.commit(change)) ? part : null
}

/** A part that holds words from the start. @param file what it says of its file, for a part of the kind `file` */
export async function beginPartWith(
  workspace: Workspace,
  step: Step,
  kind: StepPartKind,
  text: string,
  file: FileState | null = null,
): Promise<Part | null> {
  const { surroundings } = workspace.requireLab()
  const part = newPart(surroundings, step, kind, file)
  const change = makeChange(surroundings, 'add a part', beginPart(surroundings, part, text).operations)
  return (await workspace.commit(change)) ? part : null
}

/** Puts another text into a part; what stands at both ends of both texts keeps its identity, and so its links. */
export async function rewritePart(workspace: Workspace, part: Part, next: string): Promise<ChangeId | null> {
  await workspace.flushTexts()
  const { queries, surroundings } = workspace.requireLab()
  const before = await queries.standing(part.id)
  if (!before || before.text === next) return null
  const changeSet = changeBetween(before.text, toStorableText(next))
  const { change } = writeText(surroundings, { kind: 'part', id: part.id }, before.revision, changeSet)
  return (await workspace.commit(change)) ? change.id : null
}

/** A part of the procedure itself: the one that it has, or a new empty one. */
export async function beginOwnPart(
  workspace: Workspace,
  procedure: ProcedureId,
  kind: ProcedurePartKind,
): Promise<Part | null> {
  const existing = partOfProcedure(workspace.requireView(), procedure, kind)
  if (existing) return existing
  const { change, part } = addOwnPart(workspace.requireLab().surroundings, procedure, kind)
  return (await workspace.commit(change)) ? part : null
}

/** Says something of a row beside its parts: its level, its place, that there is no way back behind it. */
export async function sayOfStep(workspace: Workspace, step: Step, fields: StepFields): Promise<boolean> {
  await workspace.flushTexts()
  return workspace.commit(changeStep(workspace.requireLab().surroundings, step, fields))
}

/** Says where a procedure begins. */
export async function setProcedurePlace(
  workspace: Workspace,
  id: ProcedureId,
  place: Place | null,
): Promise<boolean> {
  const procedure = workspace.requireView().procedures.get(id)
  if (!procedure) return false
  return workspace.commit(changeProcedure(workspace.requireLab().surroundings, procedure, { place }))
}

/** Says which file a part sets down. */
export function setPartFile(workspace: Workspace, part: Part, file: FileState): Promise<boolean> {
  return workspace.commit(changePartFile(workspace.requireLab().surroundings, part, file))
}

/** Moves a row with all under it behind another (null: to the head), by one Change. */
export async function moveStepBehind(workspace: Workspace, step: Step, after: Step | null): Promise<boolean> {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  const move = moveOf(steps, step, after)
  const moving = new Set(move?.rows.map(({ id }) => id))
  const change = move && moveSteps(workspace.requireLab().surroundings, steps, moving, move.after)
  return change !== null && workspace.commit(change)
}

/** Moves a row one place up (-1) or down (1) among its like. Nothing happens at an end. */
export async function nudgeStep(workspace: Workspace, step: Step, by: -1 | 1): Promise<boolean> {
  const after = neighbourBehind(stepsOf(workspace.requireView(), step.procedure), step, by)
  return after !== undefined && moveStepBehind(workspace, step, after)
}

/** Takes a row away with all under it; alone where the person says so. */
export async function dropStep(workspace: Workspace, step: Step, isAlone = false): Promise<boolean> {
  await workspace.flushTexts()
  const lab = workspace.requireLab()
  const view = workspace.requireView()
  const rows = isAlone ? [step] : rowsUnder(stepsOf(view, step.procedure), step)
  const parts = rows.flatMap(({ id }) => [...partsOfStep(view, id).values()])
  const change = removeSteps(lab.surroundings, rows, await lab.queries.standingParts(parts))
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, `${countRows(rows)} removed.`, change.id)
  return isDone
}

export async function dropPart(workspace: Workspace, part: Part): Promise<boolean> {
  await workspace.flushTexts()
  const lab = workspace.requireLab()
  const [standing] = await lab.queries.standingParts([part])
  const change = removePart(lab.surroundings, standing!)
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, 'Part removed.', change.id)
  return isDone
}

/** Says what was done and offers to take it back. */
export function offerUndo(workspace: Workspace, words: string, change: ChangeId): void {
  workspace.say('done', words, { word: 'Undo', onAct: () => void undo(workspace, change) }, change)
}

/** Takes a text away for good, everywhere in the lab. */
export async function strikeOut(
  workspace: Workspace,
  node: LinkNode,
  secret: string,
  reason: string,
): Promise<boolean> {
  await workspace.flushTexts()
  const result = await workspace.requireLab().committer.strikeOut(node, secret, reason)
  await workspace.catchUp()
  if (!result.ok) workspace.say('problem', result.sentence)
  return result.ok
}
