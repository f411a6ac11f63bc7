/** What the placeholders of a procedure stand for. Pure. */
import type { Parameter } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import type { ShownPlaceholder } from '../ui/placeholders.tsx'

export function toShownPlaceholders(parameters: readonly Parameter[]): ReadonlyMap<string, ShownPlaceholder> {
  return new Map(parameters.map((one) => [one.name, { title: titleOf(one), look: 'quiet' as const }]))
}

/** What it is and what helps to fill it in, as one line. */
export function titleOf({ type, help, example }: Pick<Parameter, 'type' | 'help' | 'example'>): string {
  const words = plainWords(help, 200)
  const instance = example === '' ? '' : `, for instance ${example}`
  return `${type}${instance}${words === '' ? '' : `. ${words}`}`
}
