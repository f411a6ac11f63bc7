/** The words that a finding points at, with what stands around them on their line. Pure. */
import type { Range } from '../../shared/lab/model.ts'

export interface Excerpt {
  readonly before: string
  readonly words: string
  readonly after: string
}

/** As many characters are shown on either side, and of the words themselves. */
const AROUND = 48
const MOST = 160

/** @returns null where there are no words to show */
export function excerptOf(text: string, range: Range): Excerpt | null {
  const whole = text.slice(range.start, range.end)
  const [line] = whole.split('\n') as [string, ...string[]]
  if (line.trim() === '') return null
  const isCut = line.length < whole.length || line.length > MOST
  const words = line.length > MOST ? wholeToEnd(line.slice(0, MOST)) : line
  return {
    before: lineBefore(text, range.start),
    words: isCut ? `${words.trimEnd()} …` : words,
    after: isCut ? '' : lineAfter(text, range.end),
  }
}

function lineBefore(text: string, at: number): string {
  const line = text.slice(text.lastIndexOf('\n', at - 1) + 1, at)
  return line.length > AROUND ? `… ${wholeFromStart(line.slice(-AROUND))}` : line
}

function lineAfter(text: string, at: number): string {
  const end = text.indexOf('\n', at)
  const line = text.slice(at, end < 0 ? undefined : end)
  return line.length > AROUND ? `${wholeToEnd(line.slice(0, AROUND))} …` : line
}

/** A cut never leaves half of a surrogate pair. */
const wholeFromStart = (text: string): string => text.replace(/^[\udc00-\udfff]/, '')
const wholeToEnd = (text: string): string => text.replace(/[\ud800-\udbff]$/, '')
