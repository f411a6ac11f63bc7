/** What a procedure holds: its commands and files, with the carried values in the placeholders' places. */
import { whereOf } from '../../journal/places.ts'
import { compareSteps } from '../../lab/acts.ts'
import type { Machine, Parameter, Part, Place, Range, Step } from '../../lab/model.ts'
import { isSameWords } from '../../provenance/carriedView.ts'
import { rowPlaces } from '../rows/places.ts'
import {
  toPlaceholder,
  toSourceRange,
  withoutPlaceholders,
  type Filled,
  type Values,
} from '../values/placeholders.ts'
import { commandsIn, directoryAfter, fileMeaning, mayBeSamePlace, whereIs, type Deed } from './deeds.ts'
import type { JournalRecords, ProcedureRecords } from './records.ts'
import { meaningOf, unitsOf, type Meaning } from './units.ts'

export interface Held extends Meaning {
  readonly part: Part
  /** Null for a part of the procedure itself. */
  readonly step: Step | null
  /** In the part's text as it stands. */
  readonly range: Range
  /** With the carried values. */
  readonly text: string
  readonly kind: 'command' | 'file'
  readonly where: string | null
  /** Placeholders in it whose value is kept nowhere: they stand for any one word or part of one. */
  readonly open: readonly string[]
}

/** Everything that a procedure holds, step by step, then its own parts. */
export function heldBy(
  { procedure, steps, parts, parameters }: ProcedureRecords,
  { texts, machines }: Pick<JournalRecords, 'texts' | 'machines'>,
): Held[] {
  const places = rowPlaces(procedure, steps)
  const order = [...steps].sort(compareSteps)
  const carried = carriedValues(parameters)
  const led = new Map<string | null, string | null>()
  const ofStep = (step: Step | null): Held[] =>
    parts
      .filter((part) => part.step === (step?.id ?? null))
      .flatMap((part) => {
        const place = step ? (places.get(step.id)?.place ?? null) : null
        return heldInPart(part, step, texts.get(part.id) ?? '', place, { carried, parameters, machines, led })
      })
  return [...order, null].flatMap(ofStep)
}

/** The value that stood where each parameter's placeholder stands now. */
export function carriedValues(parameters: readonly Parameter[]): Values {
  return new Map(
    parameters.flatMap(({ name, carried }) => (carried === null ? [] : [[name, carried] as const])),
  )
}

interface Reading {
  readonly carried: Values
  readonly parameters: readonly Parameter[]
  readonly machines: readonly Machine[]
  /** Where no place says the directory: the one that the last `cd` on that machine led to. */
  readonly led: Map<string | null, string | null>
}

function heldInPart(
  part: Part,
  step: Step | null,
  source: string,
  place: Place | null,
  reading: Reading,
): Held[] {
  const filled = withoutPlaceholders(source, reading.carried)
  const open = reading.parameters
    .filter(({ name, carried }) => carried === null && filled.missing.includes(name))
    .map(({ name }) => toPlaceholder(name))
  const about = { part, step, open }
  if (part.kind === 'file' && part.file) {
    if (filled.text.trim() === '') return []
    const path = withoutPlaceholders(part.file.path, reading.carried).text
    return [
      {
        ...fileMeaning({ ...part.file, path }, filled.text, null),
        ...about,
        kind: 'file',
        range: { start: 0, end: source.length },
        text: path,
        where: whereOf(place, reading.machines),
      },
    ]
  }
  return commandsIn(filled.text).flatMap(({ from, to, command }) => {
    const isExact = filled.text.slice(from, to) === command
    const typedAt = whereOf(place, reading.machines)
    let directory = place?.directory ?? reading.led.get(typedAt) ?? null
    return unitsOf(command).map((unit): Held => {
      const start = isExact ? from + unit.from : from
      const end = isExact ? from + unit.to : to
      const meaning = meaningOf(unit.text, directory)
      directory = directoryAfter(unit.text, directory)
      reading.led.set(typedAt, directory)
      return {
        ...meaning,
        ...about,
        kind: 'command',
        range: sourceRange(filled, start, end),
        text: unit.text,
        where: whereIs(meaning, place, reading),
      }
    })
  })
}

const sourceRange = (filled: Filled, start: number, end: number): Range =>
  toSourceRange(filled, { start, end })

/** Whether a deed and what a procedure holds do the same, on machines that are not known to be two. */
export function isCounterpart(held: Held, deed: Pick<Deed, 'key' | 'where'>): boolean {
  if (!mayBeSamePlace(held.where, deed.where)) return false
  if (held.key === deed.key) return true
  // A placeholder is quoted in a normal form, since no shell knows its sign.
  return (
    held.open.length > 0 && isSameWords(deed.key, held.key.replace(/'([^']*\u2045[^']*)'/gu, '$1'), held.open)
  )
}
