/**
 * A query as a person typed it, read. Every part knows its range in what was typed, so that a chip can be made of it and
 * taken away again.
 *
 *     disk "no space left" -swap kind:fix in:"weather logger" place:gate last March
 */
import type { EntryKind, Range, SourceKind } from '../../lab/model.ts'
import type { FoundThing } from '../document.ts'

export interface FindQuery {
  /** What was typed, as it was typed. Ranges are UTF-16 code units of it. */
  readonly typed: string
  /** Words and technical words to be ranked by, in the order typed. A hit holds at least one of them. */
  readonly words: readonly QueryWord[]
  /** In double quotes: a hit holds all of them, word for word. */
  readonly phrases: readonly QueryPhrase[]
  /** With a minus or `not:` before: a hit holds none of them. */
  readonly excluded: readonly QueryPhrase[]
  /** A hit fits all of them. Two filters of the same sort widen each other: `kind:fix kind:problem` is either. */
  readonly filters: readonly FindFilter[]
}

export interface QueryWord {
  readonly written: string
  /** Still being typed: its beginning counts as well. Only ever the last one. */
  readonly isBeginning: boolean
  readonly range: Range
}

export interface QueryPhrase {
  /** Without the quotes. */
  readonly written: string
  readonly range: Range
}

/** A filter and where it was typed. */
export type FindFilter = { readonly range: Range } & FilterSays

export type FilterSays =
  | { readonly by: 'thing'; readonly thing: FoundThing }
  | { readonly by: 'kind'; readonly kind: EntryKind | SourceKind }
  /** `in:` followed by a project's title or a part of it. Without ids where no project is called so: nothing is found. */
  | { readonly by: 'project'; readonly written: string; readonly projects: readonly string[] }
  /** The tag itself or one below it: `net` also has `net/dns`. */
  | { readonly by: 'tag'; readonly tag: string }
  /** A machine, host or user, or a directory and all below it. */
  | { readonly by: 'place'; readonly place: string }
  /** What was withdrawn alone, or what stands alone. */
  | { readonly by: 'state'; readonly state: 'withdrawn' | 'standing' }
  | { readonly by: 'time'; readonly span: TimeSpan }

/** Half-open: from `from` to before `to`, ms since 1970-01-01T00:00:00Z; null for open ends. */
export interface TimeSpan {
  readonly from: number | null
  readonly to: number | null
}

/** What reading a query needs to know beside the query. */
export interface QuerySurroundings {
  /** The clock, ms since 1970-01-01T00:00:00Z. */
  readonly now: number
  /** The offset of local time at an instant, minutes east of UTC. */
  readonly offsetAt: (ms: number) => number
  readonly projects: readonly { readonly id: string; readonly title: string }[]
  /**
   * Says whether the lab holds a form: `-name` is an option where it does, and leaves hits with `name` out where it does not.
   * Without it nothing is taken for an option that could leave something out.
   */
  readonly isHeld?: (form: string) => boolean
  /** Ranges of what looks like a filter, a time or an exclusion, and that the person wants as words. */
  readonly keptAsWords?: readonly Range[]
}
