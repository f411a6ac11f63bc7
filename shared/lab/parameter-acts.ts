/** What a person does with a procedure's parameters: the record and all placeholders change in one Change. */
import { placeholdersIn, putPlaceholder, toPlaceholder } from '../procedure/values/placeholders.ts'
import type { Change, Operation } from './change.ts'
import type { PartId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { ChangeSetJson, Parameter, Range } from './model.ts'
import type { StandingText } from './text-acts.ts'
import { changeBetween, changeText, replacingEach } from './text.ts'

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
  const texts = places.flatMap(({ part, text, revision, ranges }): Operation[] =>
    ranges.length === 0
      ? []
      : [textOperation(around, part, revision, puttingPlaceholder(text, ranges, parameter.name))],
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
      : inPlaceholders(around, texts, parameter.name, (text, places) =>
          puttingPlaceholder(text, places, next.name),
        )
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
  const filled =
    value === null
      ? []
      : inPlaceholders(around, texts, parameter.name, (text, places) =>
          replacingEach(text.length, places, value),
        )
  return makeChange(around, 'remove a parameter', [
    ...filled,
    { op: 'remove', table: 'parameters', before: parameter },
  ])
}

/** Range by range, so that all other characters keep their identity; as one where a sign before a place is doubled. */
function puttingPlaceholder(text: string, ranges: readonly Range[], name: string): ChangeSetJson {
  const next = putPlaceholder(text, ranges, name)
  const each = replacingEach(text.length, ranges, toPlaceholder(name))
  return changeText(text, each) === next ? each : changeBetween(text, next)
}

/** Changes each of a parameter's placeholders. */
function inPlaceholders(
  around: Surroundings,
  texts: readonly StandingPartText[],
  name: string,
  change: (text: string, places: readonly Range[]) => ChangeSetJson,
): Operation[] {
  return texts.flatMap(({ part, text, revision }) => {
    const places = placeholdersIn(text).filter((one) => one.name === name)
    return places.length === 0 ? [] : [textOperation(around, part, revision, change(text, places))]
  })
}

function textOperation(
  around: Surroundings,
  part: PartId,
  fromRevision: StandingText['revision'],
  changeSet: ChangeSetJson,
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
