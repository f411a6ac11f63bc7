/** Editing what stands in the box by other means than typing. Pure. */
import type { Range } from '../../shared/lab/model.ts'

/** What was typed without a stretch of it; the blanks around it become one. */
export function withoutRange(typed: string, { start, end }: Range): string {
  const [before, behind] = [typed.slice(0, start).trimEnd(), typed.slice(end).trimStart()]
  return before === '' || behind === '' ? before + behind : `${before} ${behind}`
}

/** Ranges of one text in the text that it became: those that the change touched are gone. */
export function movedRanges(before: string, after: string, ranges: readonly Range[]): Range[] {
  const most = Math.min(before.length, after.length)
  let head = 0
  while (head < most && before[head] === after[head]) head++
  let tail = 0
  while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++
  const by = after.length - before.length
  return ranges.flatMap((range) => {
    if (range.end <= head) return [range]
    if (range.start >= before.length - tail) return [{ start: range.start + by, end: range.end + by }]
    return []
  })
}

/** Whether something was typed that looks like a path, alone: what touched it is a story, and is best read in order. */
export function isLonePath(typed: string): boolean {
  return /^(?:\/|~\/)[^\s"“”]{2,}$/u.test(typed.trim())
}

/** A value behind a filter's name, in quotes where it has to be one piece. */
export function filterText(name: string, value: string): string {
  return /\s/.test(value) ? `${name}:"${value}"` : `${name}:${value}`
}
