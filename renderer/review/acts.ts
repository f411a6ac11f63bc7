/** What a person does with findings, as calls on the workspace. Each is one Change and one undo. */
import { hearAgain, makeParameter, silence, type StandingPartText } from '../../shared/lab/acts.ts'
import type { Change } from '../../shared/lab/change.ts'
import type { PartId, ProcedureId } from '../../shared/lab/ids.ts'
import type { Step, StepPartKind } from '../../shared/lab/model.ts'
import {
  mendByPart,
  mendWords,
  moveToCaution,
  type StandingOfStep,
} from '../../shared/procedure/review/mending.ts'
import type { Finding, Mend, ReviewedSilence } from '../../shared/procedure/review/types.ts'
import { guessTypes } from '../../shared/procedure/values/guess.ts'
import { generateKeyBetween } from 'fractional-indexing'
import { setPane } from '../panes/procedure/paneStore.ts'
import { makeParameterAt, namedTexts, takeParameterAway } from '../parameters/acts.ts'
import { openParameterForm } from '../parameters/index.ts'
import { toSaid, toTyped } from '../parameters/fields.ts'
import { freeName, placesOf } from '../parameters/places.ts'
import { offerUndo } from '../store/gestures.ts'
import { linksFrom, parametersOf, partsOfStep } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import { reviewerOf } from './reviewer.ts'

/** Mends what a finding points at. @returns whether it was mended */
export async function mend(workspace: Workspace, procedure: ProcedureId, finding: Finding): Promise<boolean> {
  if (!finding.mend) return false
  await workspace.flushTexts()
  const isDone = await mendAs(workspace, procedure, finding.mend)
  // The keyboard waits at the mended line for what the rules say now.
  reviewerOf(workspace).readNow()
  return isDone
}

function mendAs(workspace: Workspace, procedure: ProcedureId, wanted: Mend): Promise<boolean> {
  switch (wanted.does) {
    case 'edit':
      return edit(workspace, wanted)
    case 'remove a parameter': {
      const parameter = workspace.requireView().parameters.get(wanted.parameter)
      return parameter ? takeParameterAway(workspace, parameter) : Promise.resolve(false)
    }
    case 'declare a parameter':
      return declare(workspace, procedure, wanted.name)
    case 'make a parameter':
      return makeOf(workspace, procedure, wanted.value)
    case 'add a part':
      return addPart(workspace, wanted)
    case 'move to the caution':
      return move(workspace, wanted)
  }
}

const meanwhile = 'The text was changed meanwhile, and nothing was done. It is being read again.'

async function edit(workspace: Workspace, { edits, label }: Mend & { does: 'edit' }): Promise<boolean> {
  const texts = await standingTexts(workspace, [...new Set(edits.map(({ part }) => part))])
  if (!texts) return refuse(workspace)
  return keep(workspace, mendWords(workspace.requireLab().surroundings, edits, texts), `${label}: done.`)
}

async function addPart(
  workspace: Workspace,
  { step: id, kind, text, label }: Mend & { does: 'add a part' },
): Promise<boolean> {
  const step = workspace.requireView().steps.get(id)
  if (!step) return refuse(workspace)
  const standing = await standingOf(workspace, step, kind)
  if (standing && standing.text.trim() !== '') return refuse(workspace)
  const change = mendByPart(workspace.requireLab().surroundings, step, kind, text, standing)
  return keep(workspace, change, `${label}: done.`)
}

async function move(
  workspace: Workspace,
  { part: id, range, label }: Mend & { does: 'move to the caution' },
): Promise<boolean> {
  const view = workspace.requireView()
  const step = view.steps.get(view.parts.get(id)?.step ?? '')
  const texts = await standingTexts(workspace, [id])
  if (!step || !texts) return refuse(workspace)
  const links = linksFrom(view, id).flatMap((link) => {
    const state = view.states.get(link.id)
    return state ? [{ link, state }] : []
  })
  const caution = await standingOf(workspace, step, 'caution')
  const change = moveToCaution(workspace.requireLab().surroundings, step, texts[0]!, range, links, caution)
  return keep(workspace, change, `${label}: done.`)
}

/** Declared as free text with no value, since nothing is known of it; the person says the rest in its form. */
async function declare(workspace: Workspace, procedure: ProcedureId, name: string): Promise<boolean> {
  const last = parametersOf(workspace.requireView(), procedure).at(-1)?.position ?? null
  const said = toSaid(toTyped({ name, type: 'free text', example: '', preset: '', help: '', rule: null }))
  const fields = { ...said, procedure, position: generateKeyBetween(last, null), carried: null }
  const { change } = makeParameter(workspace.requireLab().surroundings, fields)
  return keep(workspace, change, `“${name}” is a parameter now. Say its type and an example.`)
}

/** In every place where the value stands alone. */
async function makeOf(workspace: Workspace, procedure: ProcedureId, value: string): Promise<boolean> {
  const view = workspace.requireView()
  const type = guessTypes(value)[0] ?? 'free text'
  const name = freeName(type, parametersOf(view, procedure))
  const said = toSaid(toTyped({ name, type, example: value, preset: '', help: '', rule: null }))
  const places = placesOf(namedTexts(view, procedure), value, type, null)
  const alone = places.filter(({ standing }) => standing === 'alone')
  if (alone.length === 0) return refuse(workspace)
  return makeParameterAt(workspace, procedure, said, value, alone)
}

/** Passes a finding over; it stays so as long as its words do. @returns whether it was */
export async function passOver(
  workspace: Workspace,
  procedure: ProcedureId,
  { rule, step, words }: Finding,
  reason: string,
): Promise<boolean> {
  const { change } = silence(workspace.requireLab().surroundings, { procedure, rule, step, words }, reason)
  return keep(workspace, change, 'Passed over. It comes back when its words change.')
}

/** Takes back that a finding was passed over. */
export async function hear(workspace: Workspace, { silence: heard }: Finding): Promise<boolean> {
  const record = heard && workspace.requireView().silences.get(heard.id)
  if (!record) return false
  return keep(workspace, hearAgain(workspace.requireLab().surroundings, record), 'It is heard again.')
}

/** Goes to the words that a finding points at: to the part, the step or the parameter that it is about. */
export function goToWords(workspace: Workspace, { part, step, range, mend: way }: Finding): void {
  if (part) workspace.goTo({ kind: 'part', id: part }, range ? [range] : [])
  else if (step) setPane({ wanted: { kind: 'step', id: step } })
  else if (way?.does === 'remove a parameter') openParameterForm({ kind: 'change', parameter: way.parameter })
}

/** Takes away a silence that covers nothing any more. */
export async function forget(workspace: Workspace, { id }: ReviewedSilence): Promise<boolean> {
  const record = workspace.requireView().silences.get(id)
  if (!record) return false
  return keep(workspace, hearAgain(workspace.requireLab().surroundings, record), 'Forgotten.')
}

async function keep(workspace: Workspace, change: Change, words: string): Promise<boolean> {
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, words, change.id)
  return isDone
}

function refuse(workspace: Workspace): false {
  workspace.say('notice', meanwhile)
  return false
}

/** The texts as they stand; null where one is not any more what the rules read. */
async function standingTexts(
  workspace: Workspace,
  parts: readonly PartId[],
): Promise<StandingPartText[] | null> {
  const { queries } = workspace.requireLab()
  const reviewer = reviewerOf(workspace)
  const texts: StandingPartText[] = []
  for (const part of parts) {
    const standing = await queries.standing(part)
    if (!standing || standing.text !== reviewer.textRead(part)) return null
    texts.push({ part, ...standing })
  }
  return texts
}

async function standingOf(
  workspace: Workspace,
  step: Step,
  kind: StepPartKind,
): Promise<StandingOfStep | null> {
  const part = partsOfStep(workspace.requireView(), step.id).get(kind)
  const standing = part && (await workspace.requireLab().queries.standing(part.id))
  return part && standing ? { part, ...standing } : null
}
