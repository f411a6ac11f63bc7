/** What is asked of the index and what is answered, with all that the screen needs to show it. Plain values. */
import type { Answer } from '../../shared/find/ask/answerer.ts'
import type { FoundThing } from '../../shared/find/document.ts'
import type { FindHit, SearchOptions, TakenQuery } from '../../shared/find/index/answer.ts'
import type { FindQuery } from '../../shared/find/query/query.ts'
import type { EntryId, MachineId, ParameterId, ProcedureId, ProjectId, StepId } from '../../shared/lab/ids.ts'
import type { EntryKind, LinkNode, Outcome, Range, SourceKind } from '../../shared/lab/model.ts'
import type { Moment } from '../../shared/lab/moment.ts'

export interface FindAsk extends SearchOptions {
  readonly typed: string
  /** Ranges of what was typed that look like a filter, a time or an exclusion, and that the person wants as words. */
  readonly keptAsWords?: readonly Range[]
  /** The clock, ms since 1970-01-01T00:00:00Z. */
  readonly now: number
}

export interface FoundAnswer {
  /** What was typed, read: its filters and the ranges that they were typed at. */
  readonly query: FindQuery
  readonly hits: readonly FoundHit[]
  /** How many things fit, in the order of `foundThings`; things without any are left out. */
  readonly counts: readonly (readonly [FoundThing, number])[]
  readonly taken: TakenQuery
  /** Whether the whole lab was looked through; else the index is still being built, and asking again finds more. */
  readonly isWhole: boolean
}

export interface FoundProject {
  readonly id: ProjectId
  readonly title: string
}

export interface FoundHit extends Omit<FindHit, 'moment'> {
  /** As it was written, with its own offset; null for what has no time. */
  readonly moment: Moment | null
  /** What it is called: a title, a heading, a name, a path; empty for none, as of entries. */
  readonly title: string
  /** UTF-16 code units of the title. */
  readonly titleMarks: readonly Range[]
  readonly excerpt: FoundExcerpt
  /** Of entries and sources. */
  readonly kind: EntryKind | SourceKind | null
  /** An entry that was withdrawn: the journal keeps it readable. */
  readonly isWithdrawn: boolean
  /** Where it belongs; a source may be in several projects or in none, a machine is in none. */
  readonly projects: readonly FoundProject[]
  /** The procedure that a step is a row of. */
  readonly procedure: FoundProcedure | null
  readonly goal: FoundGoal
}

/** The stretch of its text that shows the most of the query; its beginning where none of the words stand in it. */
export interface FoundExcerpt {
  /** As it reads, without the marks of Markdown. */
  readonly text: string
  /** UTF-16 code units of `text`, in order, apart from each other. */
  readonly marks: readonly Range[]
  /** Text stands before it and behind it. */
  readonly isCutBefore: boolean
  readonly isCutBehind: boolean
}

export interface FoundProcedure {
  readonly id: ProcedureId
  readonly title: string
  readonly step: StepId
  /** `3`, or `3.1` for a sub-step; empty for a section. */
  readonly number: string
}

/** Where the screen goes. */
export type FoundGoal =
  /** With the words to mark there, UTF-16 code units of the node's text as it stands. */
  | { readonly kind: 'node'; readonly node: LinkNode; readonly ranges: readonly Range[] }
  /** One without a text of its own. */
  | { readonly kind: 'procedure'; readonly id: ProcedureId }
  /** What it asks for, or what one of its versions says; with the words to mark there, as they are written. */
  | {
      readonly kind: 'parameter'
      readonly procedure: ProcedureId
      readonly id: ParameterId
      readonly words: readonly string[]
    }
  | {
      readonly kind: 'version'
      readonly procedure: ProcedureId
      readonly number: number
      readonly words: readonly string[]
    }
  | { readonly kind: 'project'; readonly id: ProjectId }
  | { readonly kind: 'machine'; readonly id: MachineId }

export interface AnsweredQuestion {
  readonly answer: Answer
  /** Whether the whole lab was looked through; else the index is still being built, and asking again may find more. */
  readonly isWhole: boolean
}

export interface CommandsAsk {
  /** What stands in the command; capitals and how much white space there is are of no account. Empty for all. */
  readonly part: string
  readonly limit: number
}

export interface FoundCommands {
  /** At most as many as were asked for, the one that was run last first. */
  readonly commands: readonly FoundCommand[]
  /** How many there are. */
  readonly count: number
  /** Whether all actions were looked through; else they are still being read, and asking again finds more. */
  readonly isWhole: boolean
}

export interface FoundCommand {
  /** Exactly what was run. */
  readonly command: string
  /** Where the part stands in it, UTF-16 code units. */
  readonly marks: readonly Range[]
  /** How often it was run. */
  readonly times: number
  /** How many of the runs came to each outcome. */
  readonly counts: Readonly<Record<Outcome, number>>
  /** Newest first, at most {@link MOST_RUNS}. Never empty. */
  readonly runs: readonly FoundRun[]
  /** Every project that it was run in, the last one first. */
  readonly projects: readonly FoundProject[]
}
/** So many runs of a command are told one by one. */
export const MOST_RUNS = 20

export interface FoundRun {
  readonly entry: EntryId
  readonly project: FoundProject
  /** Where it stands in the entry's text, UTF-16 code units. */
  readonly range: Range
  readonly outcome: Outcome
  /** When the entry happened, else when it was written. */
  readonly moment: Moment
  /** The machine's name, else what the log or the person called it; null where it is not known. */
  readonly machine: string | null
}
