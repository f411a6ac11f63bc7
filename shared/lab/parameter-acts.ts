/** What a person does with a procedure's parameters: the record and all placeholders change in one Change. */
import { placeholdersIn, toPlaceholder } from '../procedure/values/placeholders.ts'
import type { Change, Operation } from './change.ts'
import type { PartId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { Parameter, Range } from './model.ts'
import type { StandingText } from './text-acts.ts'
import { replacingEach } from './text.ts'

/** A part's text as it stands. */
export interface StandingPartText extends StandingText {
  readonly part: PartId
}

/** Where a value is to give way to the placeholder. */
export interface ChosenPlaces extends StandingPartText {
  /** In text order, not overlapping. */
  readonly ranges: readonly Range[]
}

export type ParameterFields = Omit<Parameter, 'id'>

/**
 * Makes a parameter, and puts its placeholder wherever the person chose.
 * Of a secret nothing is kept: no example, no preset, no carried value.
 * @throws RangeError when the name is none (`isPlaceholderName`)
 */
export function makeParameter(
  around: Surroundings,
  fields: ParameterFields,
  places: readonly ChosenPlaces[] = [],
): { readonly parameter: Parameter; readonly change: Change } {
  const parameter = withoutSecret({ ...fields, id: around.ids.make() })
  const placeholder = toPlaceholder(parameter.name)
  const texts = places.flatMap(({ part, text, revision, ranges }): Operation[] =>
    ranges.length === 0
      ? []
      : [textOperation(around, part, revision, replacingEach(text.length, ranges, placeholder))],
  )
  return {
    parameter,
    change: makeChange(around, 'make a parameter', [put('parameters', parameter), ...texts]),
  }
}

/**
 * Changes what is said of a parameter. A new name is set in every text too.
 * @param texts all of the procedure's that hold the placeholder; those that do not are left alone
 */
export function changeParameter(
  around: Surroundings,
  parameter: Parameter,
  fields: Partial<ParameterFields>,
  texts: readonly StandingPartText[] = [],
): Change {
  const next = withoutSecret({ ...parameter, ...fields })
  const renamed =
    next.name === parameter.name
      ? []
      : inPlaceholders(around, texts, parameter.name, toPlaceholder(next.name))
  return makeChange(around, 'change a parameter', [put('parameters', next, parameter), ...renamed])
}

/**
 * Takes a parameter away and puts words in its placeholders' places: the value that stood there before, else the example.
 * Where neither is known, as of a secret, the placeholders stay and are found by the review.
 */
export function removeParameter(
  around: Surroundings,
  parameter: Parameter,
  texts: readonly StandingPartText[] = [],
): Change {
  const value = parameter.carried ?? (parameter.example === '' ? null : parameter.example)
  const filled = value === null ? [] : inPlaceholders(around, texts, parameter.name, value)
  return makeChange(around, 'remove a parameter', [
    ...filled,
    { op: 'remove', table: 'parameters', before: parameter },
  ])
}

/** Puts words in the place of each of a parameter's placeholders. */
function inPlaceholders(
  around: Surroundings,
  texts: readonly StandingPartText[],
  name: string,
  words: string,
): Operation[] {
  return texts.flatMap(({ part, text, revision }) => {
    const places = placeholdersIn(text).filter((one) => one.name === name)
    return places.length === 0
      ? []
      : [textOperation(around, part, revision, replacingEach(text.length, places, words))]
  })
}

function textOperation(
  around: Surroundings,
  part: PartId,
  fromRevision: StandingText['revision'],
  changeSet: Extract<Operation, { op: 'text' }>['changeSet'],
): Operation {
  return {
    op: 'text',
    node: { kind: 'part', id: part },
    fromRevision,
    changeSet,
    toRevision: around.ids.make(),
    restores: null,
    ends: false,
  }
}

function withoutSecret(parameter: Parameter): Parameter {
  if (parameter.type !== 'secret') return parameter
  const { rule } = parameter
  const { allowed: _allowed, ...rest } = rule ?? {}
  return {
    ...parameter,
    example: '',
    preset: '',
    carried: null,
    rule: Object.keys(rest).length === 0 ? null : rest,
  }
}
