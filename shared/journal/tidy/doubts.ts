/** What tidying left alone because it could not tell whose it is: to be said, so that nobody takes it for overlooked. */
import { fencedLines, linesOf } from './lines.ts'
import { findRuns } from './runs.ts'

export interface Doubt {
  /** Lines from 0 on, the last one included. */
  readonly first: number
  readonly last: number
  /** The first of these lines. */
  readonly text: string
}

/** Lines of a text that may be a machine's or a person's, in order; those that follow on one another are one doubt. */
export function doubtsOf(text: string): Doubt[] {
  const lines = linesOf(text)
  const fenced = fencedLines(lines)
  const doubts: Doubt[] = []
  for (const n of [...findRuns(lines).doubtful].sort((a, b) => a - b)) {
    const line = lines[n]!.text
    if (line.trim() === '' || fenced.has(n)) continue
    const before = doubts.at(-1)
    if (before?.last === n - 1) doubts[doubts.length - 1] = { ...before, last: n }
    else doubts.push({ first: n, last: n, text: line })
  }
  return doubts
}
