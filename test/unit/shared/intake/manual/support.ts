import { maybeManual } from '../../../../../shared/intake/manual.ts'
import type { TakenIn } from '../../../../../shared/intake/taken.ts'

export const bytesOf = (words: string): Uint8Array => new TextEncoder().encode(words)

/** What was taken in of a page that is read without fail. */
export function taken(source: string | Uint8Array, name = 'weather-logger.8'): TakenIn {
  const intake = maybeManual(name, typeof source === 'string' ? bytesOf(source) : source)
  if (!intake) throw new Error('not taken for a manual page')
  if (!intake.ok) throw new Error(intake.sentence)
  return intake
}

export const text = (source: string | Uint8Array): string => taken(source).text
