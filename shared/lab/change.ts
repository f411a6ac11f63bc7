/**
 * A Change is all that one act did: who, when, which act, and a list of operations that land together or not at all.
 * Changes are numbered as they are committed and kept for good; they are the lab's past.
 */
import type { ChangeId, RevisionId } from './ids.ts'
import type {
  Blob,
  Capture,
  ChangeSetJson,
  Entry,
  EntryTags,
  Fetch,
  Folder,
  LeftOut,
  Link,
  Machine,
  Mark,
  Parameter,
  Part,
  Piece,
  Procedure,
  Project,
  Remark,
  Silence,
  Source,
  Step,
  Strike,
  TextNode,
  Verdict,
  Version,
  Withdrawal,
} from './model.ts'
import type { Moment } from './moment.ts'

/** The tables that Changes write, with the record that stands in each. Texts, revisions and link states follow from them. */
export interface Tables {
  folders: Folder
  projects: Project
  machines: Machine
  sources: Source
  captures: Capture
  blobs: Blob
  entries: Entry
  withdrawals: Withdrawal
  marks: Mark
  entryTags: EntryTags
  verdicts: Verdict
  procedures: Procedure
  steps: Step
  parts: Part
  parameters: Parameter
  versions: Version
  remarks: Remark
  silences: Silence
  leftOut: LeftOut
  fetches: Fetch
  links: Link
  strikes: Strike
}
export type TableName = keyof Tables

/** In the order in which they may be filled: a record names only records of its own table or of one before it. */
export const tableNames = [
  'folders',
  'projects',
  'machines',
  'blobs',
  'sources',
  'captures',
  'entries',
  'withdrawals',
  'marks',
  'entryTags',
  'verdicts',
  'procedures',
  'steps',
  'parts',
  'parameters',
  'versions',
  'remarks',
  'silences',
  'leftOut',
  'fetches',
  'links',
  'strikes',
] as const satisfies readonly TableName[]

type PutOf<T extends TableName> = {
  readonly op: 'put'
  readonly table: T
  readonly record: Tables[T]
  /**
   * What stood there, null when the record is new. On the way into commit: what the person saw there, so that only
   * what they changed is set; commit fills in what really stood there.
   */
  readonly before: Tables[T] | null
}
type RemoveOf<T extends TableName> = {
  readonly op: 'remove'
  readonly table: T
  /** What stood there. Filled in by commit from what really stood there. */
  readonly before: Tables[T]
}

export type PutOperation = { [T in TableName]: PutOf<T> }[TableName]
export type RemoveOperation = { [T in TableName]: RemoveOf<T> }[TableName]

/** The one way in which a text changes: from one revision to the next. */
export interface TextOperation {
  readonly op: 'text'
  readonly node: TextNode
  /** null for a text that never was. Commit refuses it when it is not the node's last revision. */
  readonly fromRevision: RevisionId | null
  readonly changeSet: ChangeSetJson
  readonly toRevision: RevisionId
  readonly restores: readonly Piece[] | null
  /** The text leaves with its node; the change set deletes all of it. */
  readonly ends: boolean
}

export type Operation = PutOperation | RemoveOperation | TextOperation

/** What a person did, in one word or two; names the Change in the past, in undo and in PROV. */
export const acts = [
  'load the sample',
  'add a project',
  'change a project',
  'add a source',
  'add sources',
  'change a source',
  'change sources',
  'read again',
  'merge sources',
  'add a folder',
  'change a folder',
  'remove a folder',
  'add a machine',
  'change a machine',
  'remove a machine',
  'tag an entry',
  'accept a tag',
  'refuse a tag',
  'add an entry',
  'add entries',
  'keep pictures',
  'amend an entry',
  'tick an item',
  'set an outcome',
  'say when it happened',
  'say where it happened',
  'say which file it is',
  'answer a problem',
  'withdraw an entry',
  'bring an entry back',
  'carry',
  'copy',
  'add a procedure',
  'change a procedure',
  'draft steps',
  'add a section',
  'add a step',
  'change a step',
  'add a part',
  'write',
  'move a step',
  'move steps',
  'split a step',
  'join steps',
  'move words',
  'set a link again',
  'remove a step',
  'remove steps',
  'remove a part',
  'make a parameter',
  'change a parameter',
  'remove a parameter',
  'mark a version',
  'add a remark',
  'settle a remark',
  'change a remark',
  'silence a finding',
  'hear a finding again',
  'mend a finding',
  'leave out',
  'take in again',
  'tick a download',
  'strike out',
  'undo',
  'redo',
] as const
export type Act = (typeof acts)[number]

export interface Change {
  readonly id: ChangeId
  readonly at: Moment
  /** The person's name if they gave one. */
  readonly who: string | null
  readonly act: Act
  /** The Change that this one takes back, for undo and redo. */
  readonly reverses: ChangeId | null
  readonly operations: readonly Operation[]
}

/** A Change as it is kept. Blobs' bytes and captures' texts stand once, in their own tables: see `withoutBulk` in the store. */
export interface StoredChange extends Change {
  /** 1, 2, 3 … in the order of commits. */
  readonly sequence: number
}
