/** What a person does with a procedure's parameters, as calls on the workspace. Each is one Change. */
import { generateKeyBetween } from 'fractional-indexing'
import {
  changeParameter,
  makeParameter,
  removeParameter,
  type ChosenPlaces,
  type StandingPartText,
} from '../../shared/lab/parameter-acts.ts'
import type { EntryId, ProcedureId } from '../../shared/lab/ids.ts'
import type { LinkNode, Parameter } from '../../shared/lab/model.ts'
import { nameOfPart, rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { offerUndo } from '../store/gestures.ts'
import { parametersOf, stepsOf, type ProjectView } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import type { SaidFields } from './fields.ts'
import type { FoundPlace, NamedText } from './places.ts'

/** The texts of a procedure with their names: its own before the steps, then step by step. */
export function namedTexts(view: ProjectView, procedure: ProcedureId): NamedText[] {
  const steps = stepsOf(view, procedure)
  const numbers = rowNumbers(steps)
  const order = new Map(steps.map(({ id }, i) => [id, i]))
  const place = (step: string | null): number => (step === null ? -1 : (order.get(step as never) ?? -1))
  return [...view.parts.values()]
    .filter((part) => part.procedure === procedure)
    .sort((a, b) => place(a.step) - place(b.step))
    .map(({ id, kind, step }) => ({
      part: id,
      name: nameOfPart(kind, step === null ? '' : (numbers.get(step) ?? '')),
      text: view.texts.get(id) ?? '',
    }))
}

/** Makes a parameter and puts its placeholder where the person chose. @returns whether it was made */
export async function makeParameterAt(
  workspace: Workspace,
  procedure: ProcedureId,
  said: SaidFields,
  carried: string | null,
  places: readonly FoundPlace[],
): Promise<boolean> {
  await workspace.flushTexts()
  const chosen = await chosenTexts(workspace, places)
  if (!chosen) {
    workspace.say(
      'problem',
      'The procedure was changed meanwhile, and nothing was done. Look at the places again.',
    )
    return false
  }
  const last = parametersOf(workspace.requireView(), procedure).at(-1)?.position ?? null
  const position = generateKeyBetween(last, null)
  const fields = { ...said, procedure, position, carried }
  const { change } = makeParameter(workspace.requireLab().surroundings, fields, chosen)
  if (!(await workspace.commit(change))) return false
  offerUndo(workspace, wordsOfMaking(said.name, places.length), change.id)
  return true
}

function wordsOfMaking(name: string, places: number): string {
  if (places === 0) return `“${name}” is a parameter now.`
  return `“${name}” is a parameter now, and stands in ${places === 1 ? '1 place' : `${places} places`}.`
}

/** The chosen places by text; null where a text is not any more what it was when they were found. */
async function chosenTexts(
  workspace: Workspace,
  places: readonly FoundPlace[],
): Promise<ChosenPlaces[] | null> {
  const { queries } = workspace.requireLab()
  const chosen: ChosenPlaces[] = []
  for (const part of new Set(places.map((place) => place.part))) {
    const standing = await queries.standing(part)
    const own = places.filter((place) => place.part === part)
    if (!standing || own.some(({ start, end, value }) => standing.text.slice(start, end) !== value))
      return null
    chosen.push({ part, ...standing, ranges: own.map(({ start, end }) => ({ start, end })) })
  }
  return chosen
}

/** All texts of a procedure as they stand. */
async function standingTexts(workspace: Workspace, procedure: ProcedureId): Promise<StandingPartText[]> {
  await workspace.flushTexts()
  const { queries } = workspace.requireLab()
  const parts = [...workspace.requireView().parts.values()].filter((part) => part.procedure === procedure)
  const texts = await Promise.all(
    parts.map(async ({ id }) => ({ part: id, standing: await queries.standing(id) })),
  )
  return texts.flatMap(({ part, standing }) => (standing ? [{ part, ...standing }] : []))
}

/** Changes what is said of a parameter; a new name is set in every text. */
export async function changeParameterTo(
  workspace: Workspace,
  parameter: Parameter,
  said: SaidFields,
): Promise<boolean> {
  const texts = await standingTexts(workspace, parameter.procedure)
  const change = changeParameter(workspace.requireLab().surroundings, parameter, said, texts)
  const isDone = await workspace.commit(change)
  if (isDone && said.name !== parameter.name)
    offerUndo(workspace, `It is called “${said.name}” now, in every text.`, change.id)
  return isDone
}

/** Takes a parameter away; what stood in its placeholders' places stands there again. */
export async function takeParameterAway(workspace: Workspace, parameter: Parameter): Promise<boolean> {
  const texts = await standingTexts(workspace, parameter.procedure)
  const change = removeParameter(workspace.requireLab().surroundings, parameter, texts)
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, wordsOfRemoval(parameter), change.id)
  return isDone
}

function wordsOfRemoval({ name, carried, example }: Parameter): string {
  const value = carried ?? example
  return value === ''
    ? `“${name}” is no parameter any more. No value of it was kept, so its placeholders stay.`
    : `“${name}” is no parameter any more; “${value}” stands in its places.`
}

/** Where words stand beside a procedure: the entries of its project, and any one of them to point at. */
export function entriesWith(view: ProjectView, words: string): { count: number; node: LinkNode | null } {
  const own = [...view.entries.keys()].filter((id) => view.texts.get(id as EntryId)?.includes(words))
  return { count: own.length, node: own[0] ? { kind: 'entry', id: own[0] as EntryId } : null }
}
