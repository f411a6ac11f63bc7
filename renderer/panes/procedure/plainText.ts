/** Text that comes from another program becomes a part without a link. */
import { insertInto } from '../../../shared/distil/distil.ts'
import type { LandingPlace } from '../../../shared/distil/landing.ts'
import {
  beginPart,
  makeChange,
  newOwnPart,
  newPart,
  newStep,
  positionAfter,
  put,
  writeText,
  type StandingText,
  type Surroundings,
} from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { ProcedureId } from '../../../shared/lab/ids.ts'
import type { Part, ProcedurePartKind, Step, StepLevel, StepPartKind } from '../../../shared/lab/model.ts'
import { landingBehind, levelBehind } from '../../../shared/procedure/rows/order.ts'
import { replacing, toStorableText } from '../../../shared/lab/text.ts'
import { undo } from '../../store/gestures.ts'
import { partOfProcedure, partsOfStep, stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'

/** What plain text becomes unless the person points at another place. */
export const plainKind: StepPartKind = 'do'

/** Where plain text lands, with what stands there. */
export type PlainLanding =
  | {
      readonly at: 'new step'
      readonly procedure: ProcedureId
      readonly position: string
      /** A step where nothing is said. */
      readonly level?: StepLevel
      readonly kind: StepPartKind
    }
  | { readonly at: 'new part'; readonly step: Step; readonly kind: StepPartKind }
  | { readonly at: 'new own part'; readonly procedure: ProcedureId; readonly kind: ProcedurePartKind }
  | { readonly at: 'part'; readonly part: Part; readonly text: StandingText }

/** The text as it may be stored, without blank lines before it and white space behind it. */
export function toPlainWords(text: string): string {
  return toStorableText(text).replace(/^(?:[^\S\n]*\n)+|\s+$/gu, '')
}

/** All that bringing text in does, as one Change; in a part that stands it becomes the last block. */
export function bringPlain(around: Surroundings, words: string, landing: PlainLanding) {
  if (landing.at === 'part') return appendPlain(around, words, landing)
  if (landing.at === 'new own part') {
    const own = newOwnPart(around, landing.procedure, landing.kind)
    return { part: own, change: makeChange(around, 'add a part', beginPart(around, own, words).operations) }
  }
  const step: Step =
    landing.at === 'new part'
      ? landing.step
      : newStep(around, landing.procedure, landing.position, landing.level)
  const part = newPart(around, step, landing.kind)
  const { operations } = beginPart(around, part, words)
  const change =
    landing.at === 'new part'
      ? makeChange(around, 'add a part', operations)
      : makeChange(around, 'add a step', [put('steps', step), ...operations])
  return { part, change }
}

function appendPlain(
  around: Surroundings,
  words: string,
  { part, text: { text: before, revision } }: PlainLanding & { readonly at: 'part' },
): { readonly part: Part; readonly change: Change } {
  const end = { start: before.length, end: before.length }
  const { text } = insertInto(before, before.length, { text: words, ranges: [] })
  const changeSet = replacing(before.length, end, text)
  const { change } = writeText(around, { kind: 'part', id: part.id }, revision, changeSet)
  return { part, change }
}

/** Brings plain text to a place of a procedure, and offers to take that back. @returns whether it is there now */
export async function bringPlainText(
  workspace: Workspace,
  plain: string,
  place: LandingPlace,
): Promise<boolean> {
  const words = toPlainWords(plain)
  if (words === '') return false
  await workspace.flushTexts()
  const landing = await landingAt(workspace, place)
  if (!landing) return false
  const { part, change } = bringPlain(workspace.requireLab().surroundings, words, landing)
  if (!(await workspace.commit(change))) return false
  workspace.say('done', 'Brought in as text. It came from another program, so no link leads back from it.', {
    word: 'Undo',
    onAct: () => void undo(workspace, change.id),
  })
  workspace.goTo({ kind: 'part', id: part.id })
  return true
}

async function landingAt(workspace: Workspace, place: LandingPlace): Promise<PlainLanding | null> {
  const view = workspace.requireView()
  switch (place.at) {
    case 'journal':
      return null
    case 'new step': {
      const { procedure, kind = plainKind } = place
      const steps = stepsOf(view, procedure)
      const after = place.after ? (view.steps.get(place.after) ?? null) : null
      const level = levelBehind(steps, place.after)
      const position = positionAfter(steps, landingBehind(steps, after, level))
      return { at: 'new step', procedure, position, level, kind }
    }
    case 'step': {
      const step = view.steps.get(place.step)
      if (!step) return null
      const { kind = plainKind } = place
      const part = partsOfStep(view, step.id).get(kind)
      return part ? standingPart(workspace, part) : { at: 'new part', step, kind }
    }
    case 'own': {
      const { procedure, kind } = place
      const part = partOfProcedure(view, procedure, kind)
      if (part) return standingPart(workspace, part)
      return view.procedures.has(procedure) ? { at: 'new own part', procedure, kind } : null
    }
    case 'text': {
      const part = view.parts.get(place.part)
      return part ? standingPart(workspace, part) : null
    }
  }
}

async function standingPart(workspace: Workspace, part: Part): Promise<PlainLanding | null> {
  const text = await workspace.requireLab().queries.standing(part.id)
  return text ? { at: 'part', part, text } : null
}
