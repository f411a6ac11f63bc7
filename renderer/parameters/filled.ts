/** A procedure with values in its placeholders' places. Pure. */
import type { Parameter } from '../../shared/lab/model.ts'
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

/** The procedure with values filled into every text; what has none keeps its placeholder. */
export function fillProcedure(shown: ShownProcedure, values: Values): ShownProcedure {
  const fill = (part: ShownPart): ShownPart => ({ ...part, text: fillPlaceholders(part.text, values).text })
  const own = shown.own.map(fill)
  const ownOf = (part: ShownPart | null) => own.find((one) => one.part.id === part?.part.id) ?? null
  return {
    ...shown,
    own,
    title: ownOf(shown.title),
    purpose: ownOf(shown.purpose),
    steps: shown.steps.map((step) => ({ ...step, parts: step.parts.map(fill) })),
  }
}

/** The commands in a step's filled texts, as they are to be run; empty where there are none. */
export function commandsToRun(parts: readonly Pick<ShownPart, 'part' | 'text'>[]): string {
  const doing = parts.filter(({ part }) => part.kind === 'do')
  return doing.flatMap(({ text }) => commandsOf(text).map(({ command }) => command)).join('\n')
}
