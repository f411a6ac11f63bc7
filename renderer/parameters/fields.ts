/** What a person types of a parameter, and what is made of it. Pure. */
import type { Parameter } from '../../shared/lab/model.ts'
import { checkValue } from '../../shared/procedure/values/check.ts'
import { checkRule } from '../../shared/procedure/values/rule.ts'
import type { Mend, ValueRule, ValueType } from '../../shared/procedure/values/types.ts'
import { nameFault } from './places.ts'

export interface TypedFields {
  readonly name: string
  readonly type: ValueType
  readonly example: string
  readonly preset: string
  readonly help: string
  /** Allowed values, one a line. */
  readonly allowed: string
  readonly pattern: string
  readonly least: string
  readonly most: string
  readonly within: string
  readonly order: 'Debian' | 'semver'
}

export type FieldName = 'name' | 'example' | 'preset' | 'rule'
export interface FieldFault {
  readonly sentence: string
  readonly mend: Mend | null
}
export type FieldFaults = Partial<Record<FieldName, FieldFault>>

/** What a parameter says of itself, without its place among the others and what was carried. */
export type SaidFields = Pick<Parameter, 'name' | 'type' | 'example' | 'preset' | 'help' | 'rule'>

export function toTyped({ name, type, example, preset, help, rule }: SaidFields): TypedFields {
  return {
    ...{ name, type, example, preset, help },
    allowed: rule?.allowed?.join('\n') ?? '',
    pattern: rule?.pattern ?? '',
    least: rule?.least ?? '',
    most: rule?.most ?? '',
    within: rule?.within ?? '',
    order: rule?.order ?? 'Debian',
  }
}

/** Types whose values have a smallest and a largest. */
export const hasBounds = (type: ValueType): boolean =>
  ['port', 'size', 'duration', 'date', 'version'].includes(type)
export const hasNetworks = (type: ValueType): boolean =>
  ['IPv4 address', 'IPv6 address', 'network'].includes(type)

/** The rule that was typed; null where none was. What another type would ask for is left out. */
export function toRule(typed: TypedFields): ValueRule | null {
  const { type } = typed
  const allowed = typed.allowed
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
  const word = (key: 'pattern' | 'least' | 'most' | 'within', isOf: boolean) =>
    isOf && typed[key].trim() !== '' ? { [key]: typed[key].trim() } : {}
  const rule: ValueRule = {
    ...(type !== 'secret' && allowed.length > 0 ? { allowed } : {}),
    ...word('pattern', true),
    ...word('least', hasBounds(type)),
    ...word('most', hasBounds(type)),
    ...word('within', hasNetworks(type)),
    ...(type === 'version' && typed.order === 'semver' ? { order: 'semver' as const } : {}),
  }
  return Object.keys(rule).length === 0 ? null : rule
}

/** What is to be kept of what was typed. Of a secret no value is. */
export function toSaid(typed: TypedFields): SaidFields {
  const isSecret = typed.type === 'secret'
  return {
    name: typed.name.trim(),
    type: typed.type,
    example: isSecret ? '' : typed.example.trim(),
    preset: isSecret ? '' : typed.preset.trim(),
    help: typed.help.trim(),
    rule: toRule(typed),
  }
}

/** What speaks against keeping it. @param others of the same procedure */
export function faultsOf(typed: TypedFields, others: readonly Pick<Parameter, 'name'>[]): FieldFaults {
  const { name, type, example, preset, rule } = toSaid(typed)
  const named = nameFault(name, others)
  const ruled = rule ? checkRule(type, rule) : null
  const faults: Partial<Record<FieldName, FieldFault>> = {}
  if (named !== null) faults.name = { sentence: named, mend: null }
  if (ruled && !ruled.ok) faults.rule = { sentence: ruled.sentence, mend: null }
  for (const [field, value] of [
    ['example', example],
    ['preset', preset],
  ] as const) {
    const checked =
      value === '' ? null : checkValue(type, value, faults.rule ? undefined : (rule ?? undefined))
    if (checked && !checked.ok) faults[field] = { sentence: checked.sentence, mend: checked.mend }
  }
  return faults
}
