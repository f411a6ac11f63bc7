/** Problems and what ended them. */
import { instantOf, type Moment } from '../lab/moment.ts'
import type { Entry, Link, Mark } from '../lab/model.ts'
import { momentOf } from './entry-facts.ts'

/** One problem of the journal as it stands now. */
export interface Problem {
  readonly entry: Entry
  /** When it began. */
  readonly since: Moment
  /** What answered it, in order; withdrawn answers left out. */
  readonly answers: readonly ProblemAnswer[]
  /** The last answer ended it: an earlier one did not hold. Null while it is open. */
  readonly ended: ProblemAnswer | null
  /** Milliseconds from the problem to its end; null while it is open, and where the end lies before the problem. */
  readonly took: number | null
}

export interface ProblemAnswer {
  readonly entry: Entry
  readonly link: Link
  readonly at: Moment
}

/** What problems are read from. */
export interface ProblemRecords {
  readonly entries: ReadonlyMap<string, Entry>
  readonly withdrawn: ReadonlySet<string>
  readonly marks: ReadonlyMap<string, readonly Mark[]>
  readonly links: Iterable<Link>
}

/** The problems that stand, in the order in which they began. A withdrawn problem is none. */
export function problemsOf({ entries, withdrawn, marks, links }: ProblemRecords): Problem[] {
  const answers = new Map<string, ProblemAnswer[]>()
  for (const link of links) {
    const [newer, older] = [link.newer.node, link.older.node]
    if (newer.kind !== 'entry' || older.kind !== 'entry' || withdrawn.has(newer.id)) continue
    const entry = entries.get(newer.id)
    if (!entry || !canAnswer(entry)) continue
    const one = { entry, link, at: momentOf(entry, marks.get(entry.id)) }
    answers.set(older.id, [...(answers.get(older.id) ?? []), one])
  }
  const problems = [...entries.values()].filter(({ id, kind }) => kind === 'problem' && !withdrawn.has(id))
  return problems
    .map((entry) => toProblem(entry, momentOf(entry, marks.get(entry.id)), answers.get(entry.id) ?? []))
    .sort((a, b) => instantOf(a.since) - instantOf(b.since) || (a.entry.id < b.entry.id ? -1 : 1))
}

/** A problem is answered by a fix or a decision. */
export function canAnswer({ kind }: Pick<Entry, 'kind'>): boolean {
  return kind === 'fix' || kind === 'decision'
}

function toProblem(entry: Entry, since: Moment, found: readonly ProblemAnswer[]): Problem {
  const answers = [...found].sort(
    (a, b) => instantOf(a.at) - instantOf(b.at) || (a.link.id < b.link.id ? -1 : 1),
  )
  const ended = answers.at(-1) ?? null
  const took = ended ? instantOf(ended.at) - instantOf(since) : -1
  return { entry, since, answers, ended, took: took < 0 ? null : took }
}

/**
 * A length of time in words: `under 1 min`, `12 min`, `1 h 12 min`, `3 d 4 h`. Cut off, never rounded up.
 * @param ms milliseconds, not negative
 */
export function wordsOfDuration(ms: number): string {
  const minutes = Math.floor(ms / 60_000)
  const [days, hours, rest] = [Math.floor(minutes / 1440), Math.floor(minutes / 60) % 24, minutes % 60]
  if (days > 0) return hours > 0 ? `${days} d ${hours} h` : `${days} d`
  if (hours > 0) return rest > 0 ? `${hours} h ${rest} min` : `${hours} h`
  return minutes > 0 ? `${minutes} min` : 'under 1 min'
}

/** How many problems are open and since when the oldest is: `2 open problems, 1 h 12 min`; null where none is. */
export function wordsOfOpen(problems: readonly Problem[], now: Moment): string | null {
  const open = problems.filter(({ ended }) => ended === null)
  const [oldest] = open
  if (!oldest) return null
  const age = Math.max(0, instantOf(now) - instantOf(oldest.since))
  return `${open.length} open ${open.length === 1 ? 'problem' : 'problems'}, ${wordsOfDuration(age)}`
}
