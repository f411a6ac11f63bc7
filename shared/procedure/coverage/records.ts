/** What coverage and drafts are read from. A project as its panes show it fits as it is. */
import type {
  Entry,
  LeftOut,
  Link,
  LinkState,
  Machine,
  Mark,
  Parameter,
  Part,
  Piece,
  Procedure,
  Step,
} from '../../lab/model.ts'

export interface JournalRecords {
  /** By id. */
  readonly entries: ReadonlyMap<string, Entry>
  readonly withdrawn: ReadonlySet<string>
  /** By entry, in the order in which they were set. */
  readonly marks: ReadonlyMap<string, readonly Mark[]>
  /** Texts of entries and parts as they stand, by id. */
  readonly texts: ReadonlyMap<string, string>
  /** The identities of the texts' characters, by id. */
  readonly pieces: ReadonlyMap<string, readonly Piece[]>
  readonly machines: readonly Machine[]
}

export interface ProcedureRecords {
  readonly procedure: Procedure
  /** All of the procedure, in any order. */
  readonly steps: readonly Step[]
  readonly parts: readonly Part[]
  readonly parameters: readonly Parameter[]
  readonly leftOut: readonly LeftOut[]
  /** At least those that lead from the procedure's parts, and those by which a fix answers a problem. */
  readonly links: Iterable<Link>
  /** By link. */
  readonly states: ReadonlyMap<string, LinkState>
}
