/**
 * A text as links compare it: where a parameter's placeholder stands, the value that stood there when it was carried. So
 * that making a parameter turns no quote into a derivation.
 */
import type { Parameter } from '../lab/model.ts'
import {
  placeholdersIn,
  toPlaceholder,
  withoutPlaceholders,
  type Filled,
} from '../procedure/values/placeholders.ts'
import { wordsOf } from './selectors.ts'

export interface CarriedView {
  readonly filled: Filled
  /** Placeholders as they stand in the filled text whose value is kept nowhere: they stand for any one word or part of one. */
  readonly open: readonly string[]
}

/** @returns null where the text has no placeholder of these parameters, so that it is compared as it stands */
export function carriedViewOf(text: string, parameters: readonly Parameter[]): CarriedView | null {
  const named = new Set(placeholdersIn(text).map(({ name }) => name))
  const own = parameters.filter(({ name }) => named.has(name))
  if (own.length === 0) return null
  const carried = new Map(
    own.flatMap(({ name, carried }) => (carried === null ? [] : [[name, carried] as const])),
  )
  const open = own.filter(({ carried }) => carried === null).map(({ name }) => toPlaceholder(name))
  return { filled: withoutPlaceholders(text, carried), open }
}

/** Whether two texts are the same word for word; a word of the second may have open placeholders in it. */
export function isSameWords(carried: string, standing: string, open: readonly string[] = []): boolean {
  if (carried === standing) return true
  const [wordsA, wordsB] = [wordsOf(carried), wordsOf(standing)]
  return wordsA.length === wordsB.length && wordsA.every((word, i) => isSameWord(word, wordsB[i]!, open))
}

function isSameWord(carried: string, standing: string, open: readonly string[]): boolean {
  if (carried === standing) return true
  const fixed = open.reduce<string[]>(
    (pieces, placeholder) => pieces.flatMap((piece) => piece.split(placeholder)),
    [standing],
  )
  if (fixed.length === 1) return false
  const [first, last] = [fixed[0]!, fixed.at(-1)!]
  if (!carried.startsWith(first) || !carried.endsWith(last)) return false
  // Every placeholder stands for one character at least; what is fixed between them is looked for as early as it can be.
  let at = first.length
  for (const piece of fixed.slice(1, -1)) {
    const found = carried.indexOf(piece, at + 1)
    if (found < 0) return false
    at = found + piece.length
  }
  return at + 1 <= carried.length - last.length
}
