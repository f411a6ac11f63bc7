/** A procedure with values in its placeholders' places. Pure. */
import type { FileState, Parameter, Place, Step } from '../../shared/lab/model.ts'
import { commandsOf } from '../../shared/journal/scrollback/commands.ts'
import { checkValue } from '../../shared/procedure/values/check.ts'
import { fillPlaceholders, type Values } from '../../shared/procedure/values/placeholders.ts'
import type { ValueCheck } from '../../shared/procedure/values/types.ts'
import type { ShownPart, ShownProcedure } from '../panes/procedure/shown.ts'

/** What was typed for a parameter, checked; null for nothing. */
export function checkTyped({ type, rule }: Parameter, typed: string): ValueCheck | null {
  return typed === '' ? null : checkValue(type, typed, rule ?? undefined)
}

/** The values that are right, by name. What is not right yet fills nothing, so that nobody follows it. */
export function rightValues(parameters: readonly Parameter[], typed: Values): Map<string, string> {
  return new Map(
    parameters.flatMap((parameter) => {
      const value = typed.get(parameter.name) ?? ''
      return checkTyped(parameter, value)?.ok ? [[parameter.name, value] as const] : []
    }),
  )
}

/** The procedure with values filled into every text, place and file's name; what has none keeps its placeholder. */
export function fillProcedure(shown: ShownProcedure, values: Values): ShownProcedure {
  const words = (text: string): string => fillPlaceholders(text, values).text
  const fill = ({ part, text, links }: ShownPart): ShownPart => ({
    part: part.file ? { ...part, file: fillFile(part.file, words) } : part,
    text: words(text),
    links,
  })
  const own = shown.own.map(fill)
  const ownOf = (part: ShownPart | null) => own.find((one) => one.part.id === part?.part.id) ?? null
  return {
    ...shown,
    own,
    title: ownOf(shown.title),
    purpose: ownOf(shown.purpose),
    place: fillPlace(shown.place, words),
    steps: shown.steps.map((shownStep) => ({
      ...shownStep,
      step: fillStep(shownStep.step, words),
      place: { ...shownStep.place, place: fillPlace(shownStep.place.place, words) },
      parts: shownStep.parts.map(fill),
    })),
  }
}

type Words = (text: string) => string

const fillStep = (step: Step, words: Words): Step =>
  step.place ? { ...step, place: fillPlace(step.place, words) } : step

function fillPlace(place: Place | null, words: Words): Place | null {
  if (!place) return null
  const maybe = (text: string | null) => (text === null ? null : words(text))
  return {
    ...place,
    host: maybe(place.host),
    user: maybe(place.user),
    directory: maybe(place.directory),
  }
}

function fillFile(file: FileState, words: Words): FileState {
  const maybe = (text: string | null) => (text === null ? null : words(text))
  return { ...file, path: words(file.path), owner: maybe(file.owner), group: maybe(file.group) }
}

/** The commands in a step's filled texts, as they are to be run; empty where there are none. */
export function commandsToRun(parts: readonly Pick<ShownPart, 'part' | 'text'>[]): string {
  const doing = parts.filter(({ part }) => part.kind === 'do')
  return doing.flatMap(({ text }) => commandsOf(text).map(({ command }) => command)).join('\n')
}
