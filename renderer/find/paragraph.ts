/** The stretch of a text that words stand in. Pure. */
import type { Range } from '../../shared/lab/model.ts'
import { balancedRange } from '../../shared/markdown/balance.ts'

/** A paragraph that is longer than this is no answer to a few words; their line is taken then. UTF-16 code units. */
const LONG = 2_000

/** The paragraph around a range, with no formatted piece of it cut in two; of a very long one the line. */
export function paragraphAround(text: string, { start, end }: Range): Range {
  const whole = between(text, start, end, /\n[ \t]*\n/g)
  const range = whole.end - whole.start <= LONG ? whole : between(text, start, end, /\n/g)
  const inside = balancedRange(text.slice(whole.start, whole.end), {
    start: range.start - whole.start,
    end: range.end - whole.start,
  })
  return { start: inside.start + whole.start, end: inside.end + whole.start }
}

/** From behind the last separator before the range to before the first one behind it. */
function between(text: string, start: number, end: number, separator: RegExp): Range {
  let from = 0
  for (const match of text.slice(0, start).matchAll(separator)) from = match.index + match[0].length
  separator.lastIndex = end
  const behind = separator.exec(text)
  return { start: from, end: behind ? behind.index : text.length }
}
