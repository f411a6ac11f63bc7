/** What an exported procedure is made of: plain values that the caller gathers from the lab's records. */
import type { EntryId, SourceId, StepId } from '../lab/ids.ts'
import type { EntryKind, FileState, ProcedurePartKind, StepLevel, StepPartKind } from '../lab/model.ts'
import type { Moment } from '../lab/moment.ts'
import type { ListedFetch } from '../procedure/fetches/written.ts'

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

/** Which file a part of the kind `file` sets down. */
export type ExportedFile = Pick<FileState, 'path' | 'owner' | 'group' | 'mode' | 'form'>

export interface ExportedPart {
  readonly kind: StepPartKind
  /** Markdown. */
  readonly text: string
  readonly origins: readonly Origin[]
  readonly file?: ExportedFile | null
}

export interface ExportedStep {
  readonly parts: readonly ExportedPart[]
  /** By which references in texts name it; left out where none can. */
  readonly id?: StepId
  /** A step where nothing is said. A section has its heading as its one part. */
  readonly level?: StepLevel
  /** Where it happens, in words, where that is another place than the one before: "on logger, as root". */
  readonly place?: string | null
  readonly pointOfNoReturn?: boolean
}

/** A part of the procedure itself beside its title and its purpose. */
export interface ExportedOwnPart {
  readonly kind: Exclude<ProcedurePartKind, 'title' | 'purpose'>
  /** Markdown. */
  readonly text: string
  /** What it rests on, nearest first. */
  readonly origins?: readonly Origin[]
}

export interface ExportedProcedure {
  /** Markdown of one line. */
  readonly title: string
  /** Markdown. */
  readonly purpose: string
  /** What the purpose rests on, nearest first. */
  readonly purposeOrigins?: readonly Origin[]
  readonly own?: readonly ExportedOwnPart[]
  /** What its commands want from a network, to be had beforehand. */
  readonly fetches?: readonly ListedFetch[]
  /** Sections, steps and sub-steps in their order. */
  readonly steps: readonly ExportedStep[]
}

export interface ExportOptions {
  /** Adds the journal entries that the steps rest on, in time order, and names them at the steps. */
  readonly journal: boolean
}
