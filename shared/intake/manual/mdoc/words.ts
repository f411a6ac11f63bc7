/** A line's words while its macros are carried out, and how they are put. */
import type { MarkedArg } from '../roff/escape.ts'
import type { Font, Run } from '../roff/style.ts'
import { callNames } from './call-names.ts'
import { isClosing, isOpening, type Line } from './line.ts'
import type { State } from './page-state.ts'

export interface Words {
  readonly state: State
  readonly line: Line
  readonly args: readonly MarkedArg[]
  readonly end: number
  /** Enclosures around. */
  readonly depth: number
}
/** Carries out the macro whose words begin at a place. @returns the place behind what it took */
export type Inline = (words: Words, at: number) => number

export const runs = ({ state }: Words, word: string, font: Font): Run[] => {
  state.machine.style.set(font)
  const found = state.machine.runsOf(word)
  state.machine.style.reset()
  return found
}

/** Whether a word calls a macro: not where it stood in quotes. */
export const isCall = ({ args }: Words, at: number): boolean =>
  !args[at]!.isQuoted && callNames.has(args[at]!.value)

/** The place of the next call or of the end. */
export function nextCall(words: Words, at: number): number {
  let next = at
  while (next < words.end && !isCall(words, next)) next += 1
  return next
}

/** Puts a word as it is to be put: signs that close or open stand close to their neighbours. */
export function putWord(words: Words, { value, isQuoted }: MarkedArg, font: Font): void {
  if (!isQuoted && isClosing(value)) words.line.close(value)
  else if (!isQuoted && isOpening(value)) words.line.open(value)
  else if (!isQuoted && value === '|') words.line.word(value)
  else words.line.put(runs(words, value, font))
}

export const isSign = ({ value, isQuoted }: MarkedArg): boolean =>
  !isQuoted && (isClosing(value) || isOpening(value) || value === '|')

export function putRest(words: Words, from: number, end: number, font: Font = 'R'): number {
  for (let at = from; at < end; at += 1) putWord(words, words.args[at]!, font)
  return end
}
