/** What an exported procedure is made of: plain values that the caller gathers from the lab's records. */
import type { EntryId, SourceId } from '../lab/ids.ts'
import type { EntryKind, StepPartKind } from '../lab/model.ts'
import type { Moment } from '../lab/moment.ts'

/** An entry that a part rests on. */
export interface EntryOrigin {
  readonly kind: 'entry'
  readonly id: EntryId
  readonly entry: ExportedEntry
}

/** A source that a part rests on, directly or through an entry. */
export interface SourceOrigin {
  readonly kind: 'source'
  readonly id: SourceId
  readonly source: ExportedSource
}

export type Origin = EntryOrigin | SourceOrigin

export interface ExportedEntry {
  readonly kind: EntryKind
  readonly moment: Moment
  /** Markdown. */
  readonly text: string
}

export interface ExportedSource {
  readonly title: string
  readonly address: string | null
  /** When its text was taken; null for a link without text. */
  readonly taken: Moment | null
  /** Where in it the words stand, for a paged document: 'page 12', 'pages 12 to 14'. */
  readonly page?: string | null
}

export interface ExportedPart {
  readonly kind: StepPartKind
  /** Markdown. */
  readonly text: string
  readonly origins: readonly Origin[]
}

export interface ExportedStep {
  readonly parts: readonly ExportedPart[]
}

export interface ExportedProcedure {
  /** Markdown of one line. */
  readonly title: string
  /** Markdown. */
  readonly purpose: string
  readonly steps: readonly ExportedStep[]
}

export interface ExportOptions {
  /** Adds the journal entries that the steps rest on, in time order, and names them at the steps. */
  readonly journal: boolean
}
