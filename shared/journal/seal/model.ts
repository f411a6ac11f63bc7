/** The seal's own records, and what it is put on. */
import type { ProjectId } from '../../lab/ids.ts'
import type { Entry, Mark, Revision, Strike, TextRecord, Withdrawal } from '../../lab/model.ts'
import type { Moment } from '../../lab/moment.ts'

/** Tables whose records are sealed. Of the revisions, those of entries. */
export const sealedTables = ['entries', 'revisions', 'withdrawals', 'marks', 'strikes'] as const
export type SealedTable = (typeof sealedTables)[number]

declare const sealIdBrand: unique symbol
/** The project's id, a colon, and the number in ten digits, so that text order is the order of sealing. */
export type SealId = string & { readonly [sealIdBrand]: true }

/**
 * One link of a project's chain. Never changes once it is made. Everything beside `body` is read from it, and stands
 * here only so that the record can be found.
 */
export interface Seal {
  readonly id: SealId
  readonly project: ProjectId
  /** 1, 2, 3 … within the project. */
  readonly number: number
  readonly of: { readonly table: SealedTable; readonly id: string }
  /** Canonical JSON (RFC 8785) of a SealBody. */
  readonly body: string
  /** SHA-256 of the body's UTF-8, lower-case hex. */
  readonly hash: string
  /** The hash of the seal before; sixty-four zeros in the first. */
  readonly before: string
}

/** The salts of one seal's digests, by place. A text that is struck out takes its salt along; the seal stays. */
export interface SealSalts {
  readonly seal: SealId
  /** 32 random bytes each, in lower-case hex. */
  readonly salts: Readonly<Record<string, string>>
}

/** Stands in a body where words stand in the record: SHA-256 of the salt in hex, a line feed, the words in UTF-8, a line feed. */
export interface WordDigest {
  readonly sha256: string
}

/** The head of a chain: whoever noted one can later see that all up to there is as it was. */
export interface SealHead {
  readonly number: number
  readonly hash: string
}

/** What a body says, as JSON. */
export interface SealBody {
  readonly version: 1
  readonly project: ProjectId
  readonly number: number
  readonly before: string
  /** When the seal was made, by the machine's clock. */
  readonly sealed: Moment
  /** Made long after the record, when seals were introduced: it vouches for what stood there then. */
  readonly late: boolean
  readonly of: { readonly table: SealedTable; readonly id: string }
  /** The record, with a WordDigest wherever it holds words. */
  readonly record: unknown
}

/** A text that a strike changed, as the strike's seal names it. */
export interface Taken {
  /** The seal whose digest can be checked no more, and the place in its record. */
  readonly seal: number
  readonly field: string
  /** The digest whose salt went: that of the seal, or of an earlier strike that changed the same text. */
  readonly gone: string
  /** Whether the text matched that digest up to the strike. */
  readonly matched: boolean
  /** The words as the strike left them. In the body their digest stands. */
  readonly now: string
}

/** What a seal is put on. */
export type SealedThing =
  | {
      readonly table: 'entries'
      readonly record: Entry
      /** The entry's first revision and its text, where they came in the same act. */
      readonly first: SealedText | null
    }
  | ({ readonly table: 'revisions' } & SealedText)
  | { readonly table: 'withdrawals'; readonly record: Withdrawal }
  | { readonly table: 'marks'; readonly record: Mark }
  | {
      readonly table: 'strikes'
      readonly record: Strike
      readonly taken: readonly Taken[]
      /** SHA-256 of pictures and files of this journal whose bytes were emptied. */
      readonly emptied: readonly string[]
    }

/** A revision with the whole text that it led to. */
export interface SealedText {
  readonly record: Revision
  readonly text: string
}

/** All that a project's journal says, as it stands in the lab. */
export interface JournalRecords {
  readonly entries: readonly Entry[]
  /** Of these entries. Any order. */
  readonly revisions: readonly Revision[]
  readonly withdrawals: readonly Withdrawal[]
  readonly marks: readonly Mark[]
  /** All of the lab; only those that changed a text of this journal have a seal in it. */
  readonly strikes: readonly Strike[]
  /** Of these entries: the derived texts that are shown. */
  readonly texts: readonly TextRecord[]
}
