/**
 * The records of a lab, as they are stored, exported and passed around. Plain values only.
 * Vocabulary: one word for one thing. What a record was before stands in the stored Changes (change.ts).
 */
import type {
  CaptureId,
  ChangeId,
  EntryId,
  FolderId,
  FetchId,
  LabId,
  LeftOutId,
  LinkId,
  MachineId,
  MarkId,
  ParameterId,
  PartId,
  ProcedureId,
  ProjectId,
  RemarkId,
  RevisionId,
  SilenceId,
  SourceId,
  StepId,
  StrikeId,
  VerdictId,
  VersionId,
  WindowId,
  WithdrawalId,
} from './ids.ts'
import type { ValueRule, ValueType } from '../procedure/values/types.ts'
import type { Moment } from './moment.ts'

/** One separate set of data. Stands in the registry beside the labs' own databases. */
export interface Lab {
  readonly id: LabId
  readonly name: string
  readonly created: Moment
}

export const projectStatuses = ['planned', 'under way', 'done', 'dropped'] as const
export type ProjectStatus = (typeof projectStatuses)[number]

export interface Project {
  readonly id: ProjectId
  readonly title: string
  readonly aim: string
  readonly status: ProjectStatus
  readonly created: Moment
  readonly tags: readonly string[]
  /** The drawer that it lies in; null for none. */
  readonly folder: FolderId | null
}

/** What a source was when it came in. A link is an address without text. */
export const sourceKinds = ['link', 'page', 'pdf', 'manual', 'markdown', 'text', 'picture'] as const
export type SourceKind = (typeof sourceKinds)[number]

/**
 * How something came in: typed by hand, dropped or pasted from elsewhere, read from a file, found in the drop folder,
 * handed over by a browser through our link scheme, named in a browser's bookmarks, or part of the sample.
 */
export const waysIn = [
  'typed',
  'dropped',
  'pasted',
  'file',
  'drop folder',
  'handed over',
  'bookmarks',
  'sample',
] as const
export type WayIn = (typeof waysIn)[number]

export interface Source {
  readonly id: SourceId
  readonly title: string
  /** Absolute URL where the source says or the person gave one. As it came, tracking parameters and all. */
  readonly address: string | null
  readonly kind: SourceKind
  readonly wayIn: WayIn
  readonly added: Moment
  /** The projects that use it; a source is shared by any number of them. */
  readonly projects: readonly ProjectId[]
  /** Who wrote it, as the document states. */
  readonly author: string | null
  /** The date that the document states of itself: a date, a month or a year (ISO 8601), or a date with its time. */
  readonly dated: string | null
  /** When a browser kept it among its bookmarks. */
  readonly bookmarked: Moment | null
  /** In the person's own writing; equal tags are equal strings. Each once. */
  readonly tags: readonly string[]
  /** Any number; each once. */
  readonly folders: readonly FolderId[]
  /** Stands at the head of every list. */
  readonly pinned: boolean
  /** Kept, but out of every list until it is asked for. */
  readonly setAside: boolean
  /** A short comment in the person's words; a browser's bookmark may bring one. */
  readonly remark: string
  /**
   * The source that this one was found to be the same as. It then shows this one's captures and links as its own; this
   * record stays, so that every link to it holds and the merge can be taken back.
   */
  readonly mergedInto: SourceId | null
}

/** A drawer for sources or for projects, itself in another one of its sort or at the top. */
export interface Folder {
  readonly id: FolderId
  readonly name: string
  readonly parent: FolderId | null
  readonly holds: 'sources' | 'projects'
}

/** A machine of the lab. Places and parameters point to it. */
export interface Machine {
  readonly id: MachineId
  readonly name: string
  /** Other names that prompts and logs call it by. */
  readonly aliases: readonly string[]
  /** IP addresses and names, as the person wrote them. */
  readonly addresses: readonly string[]
  readonly serials: readonly string[]
  readonly disks: readonly string[]
  /** Markdown. */
  readonly notes: string
  readonly created: Moment
  /** Kept, but out of the lists for choosing. */
  readonly setAside: boolean
}

/** Where a page of a paged document begins in its text. */
export interface PageStart {
  /** UTF-16 code units from the text's start; increasing from page to page. An empty page starts where the next does. */
  readonly start: number
  /** The number printed on it where the document says so, else its place from 1 on: 'iv', '12'. */
  readonly label: string
}

/** The text of a source as it was at one moment. Never changes. A link without text has none. */
export interface Capture {
  readonly id: CaptureId
  readonly source: SourceId
  readonly taken: Moment
  /** The one revision that this text will ever have. */
  readonly revision: RevisionId
  /** Markdown, line ends `\n`, no U+0000. Empty for a picture. */
  readonly text: string
  /** Lower-case hex SHA-256 (FIPS 180-4) of the original bytes, which stand in `blobs` under it. */
  readonly sha256: string
  readonly wayIn: WayIn
  /** When the file says that the page was saved, which may be long before it was taken in. */
  readonly saved: Moment | null
  /** Of a paged document, one for each page; empty for every other. */
  readonly pages: readonly PageStart[]
  /** Sentences about what was changed or left out on the way in. */
  readonly notes: readonly string[]
}

/** A capture without its text. Derived, so that lists need not read every text. */
export type CaptureHead = Omit<Capture, 'text'> & {
  /** UTF-16 code units of the text. */
  readonly length: number
}

/** An entry's tags. Beside the entry, which never changes. */
export interface EntryTags {
  readonly entry: EntryId
  readonly tags: readonly string[]
}

/** Things that carry tags. */
export type TaggedNode =
  | { readonly kind: 'source'; readonly id: SourceId }
  | { readonly kind: 'entry'; readonly id: EntryId }
  | { readonly kind: 'project'; readonly id: ProjectId }

/** That a person took or refused a tag that was suggested. The latest one for a thing and a tag counts. */
export interface Verdict {
  readonly id: VerdictId
  readonly node: TaggedNode
  readonly tag: string
  readonly isAccepted: boolean
  /** The score with which it was suggested, 0 to 1. */
  readonly chance: number
  readonly moment: Moment
}

/** Original bytes, content-addressed and shared when equal. */
export interface Blob {
  readonly sha256: string
  readonly bytes: Uint8Array
  /** Media type (RFC 6838) as far as it was known when the bytes came in. */
  readonly mediaType: string
}

export const entryKinds = [
  'action',
  'output',
  'observation',
  'problem',
  'fix',
  'decision',
  'file',
  'list',
] as const
export type EntryKind = (typeof entryKinds)[number]

/** Where a command ran or must run, where a file lies. Null for what is not known. */
export interface Place {
  readonly machine: MachineId | null
  /** The name that a prompt, a log or the person gave; of a machine that has no record, too. */
  readonly host: string | null
  readonly user: string | null
  readonly directory: string | null
}

/** What a terminal's log says of a command beside its words. */
export interface Ran {
  /** 0 to 255; null where the log does not say. */
  readonly exitCode: number | null
  readonly started: Moment | null
  readonly ended: Moment | null
  /** The name of the log, for people. */
  readonly log: string
}

/** What a file entry says of its file beside its text. The text is Markdown with one fence, and is the truth. */
export interface FileState {
  readonly path: string
  readonly owner: string | null
  readonly group: string | null
  /** Octal digits as chmod(1) takes them: `0644`. */
  readonly mode: string | null
  /** Whether the fence holds the whole content or a unified diff against the state before. */
  readonly form: 'content' | 'diff'
  readonly endsWithNewline: boolean
  readonly lineEnds: 'lf' | 'crlf'
  /** SHA-256 of bytes that are no text, which stand in `blobs`; the fence is then empty. */
  readonly blob: string | null
}

/** What an entry says of itself beside its kind, its moment and its text. */
export interface EntryFacts {
  /** When it happened, where that is not when it was written. */
  readonly happened: Moment | null
  /** The entry that this one was added to later, in a conversation under it. Such an entry has none under itself. */
  readonly under: EntryId | null
  readonly place: Place | null
  /** Of an action that came out of a terminal's log. */
  readonly ran: Ran | null
  /** Of a file entry. */
  readonly file: FileState | null
}

/** One piece of the journal. Its text stands in `texts` under its id. Never overwritten, never removed. */
export interface Entry extends EntryFacts {
  readonly id: EntryId
  readonly project: ProjectId
  readonly kind: EntryKind
  /** When it was written. */
  readonly moment: Moment
}

/** Of a command. Unknown is never taken for succeeded. */
export const outcomes = ['succeeded', 'failed', 'unknown'] as const
export type Outcome = (typeof outcomes)[number]

/**
 * What a mark sets, and what stood there before, so that a further mark can take it back. Items of a list and commands
 * are named by the identities of their characters, so that an amendment beside them leaves them what they are.
 */
export type MarkSays =
  | {
      readonly kind: 'tick'
      readonly item: readonly Piece[]
      readonly set: boolean
      readonly was: boolean
    }
  | {
      readonly kind: 'outcome'
      /** Null for the entry as a whole: all its commands of which nothing is said alone. */
      readonly command: readonly Piece[] | null
      /** Null for what the exit code says. */
      readonly set: Outcome | null
      readonly was: Outcome | null
    }
  | { readonly kind: 'happened'; readonly set: Moment | null; readonly was: Moment | null }
  | { readonly kind: 'place'; readonly set: Place | null; readonly was: Place | null }
  | { readonly kind: 'file'; readonly set: FileState; readonly was: FileState }

/** Something that a person set on an entry after it was written. Appended; the newest one for a thing counts. */
export interface Mark {
  readonly id: MarkId
  readonly entry: EntryId
  readonly moment: Moment
  readonly says: MarkSays
}

/**
 * The undo of a new entry. A further record: the last one for an entry says whether it stands.
 * `withdrawn: false` takes an earlier withdrawal back (redo).
 */
export interface Withdrawal {
  readonly id: WithdrawalId
  readonly entry: EntryId
  readonly moment: Moment
  readonly withdrawn: boolean
}

export interface Procedure {
  readonly id: ProcedureId
  readonly project: ProjectId
  readonly created: Moment
  /** Where its first step happens; null where nothing is said. */
  readonly place: Place | null
}

/** A section is a heading over the steps that follow it; a sub-step belongs to the step before it. */
export const stepLevels = ['section', 'step', 'sub-step'] as const
export type StepLevel = (typeof stepLevels)[number]

/** One row of a procedure: all of them stand in one order, so that moving one is a change of one position. */
export interface Step {
  readonly id: StepId
  readonly procedure: ProcedureId
  /** Fractional index; text order is step order. */
  readonly position: string
  readonly level: StepLevel
  /** Where it happens, from here on; null where that is as it was before. */
  readonly place: Place | null
  /** What is done here cannot be taken back. */
  readonly pointOfNoReturn: boolean
}

/**
 * Parts that a procedure has itself, in the order in which they are shown: `closing checks` and `how to undo` stand behind
 * the steps, all others before them.
 */
export const procedurePartKinds = [
  'title',
  'purpose',
  'scope',
  'access',
  'supplies',
  'time',
  'back-up',
  'closing checks',
  'how to undo',
] as const
/** Parts that a step has, in the order in which they are shown. A section has a heading and nothing else. */
export const stepPartKinds = [
  'heading',
  'condition',
  'done already',
  'caution',
  'do',
  'file',
  'expect',
  'if it fails',
  'hold',
  'undo',
  'why',
] as const
/** Parts of a step that are words alone: a heading stands over steps, a file has a path beside its text. */
export const wordPartKinds = stepPartKinds.filter((kind) => kind !== 'heading' && kind !== 'file')
export type ProcedurePartKind = (typeof procedurePartKinds)[number]
export type StepPartKind = (typeof stepPartKinds)[number]
export type PartKind = ProcedurePartKind | StepPartKind

/** A piece of a procedure's text. The text stands in `texts` under the part's id. One of each kind for each owner. */
export type Part =
  | {
      readonly id: PartId
      readonly procedure: ProcedureId
      readonly step: StepId
      readonly kind: StepPartKind
      /** What a part of the kind `file` says of its file; null for every other. */
      readonly file: FileState | null
    }
  | {
      readonly id: PartId
      readonly procedure: ProcedureId
      readonly step: null
      readonly kind: ProcedurePartKind
      readonly file: null
    }

/** A named value that a procedure asks for. In texts it stands as a placeholder (procedure/values). */
export interface Parameter {
  readonly id: ParameterId
  readonly procedure: ProcedureId
  /** Unique within the procedure; as `isPlaceholderName` wants it. */
  readonly name: string
  readonly type: ValueType
  /** Empty for a secret, and where there is none. */
  readonly example: string
  /** What is taken where nothing is entered; empty for a secret, and where there is none. */
  readonly preset: string
  readonly rule: ValueRule | null
  /** Markdown: where to find the value, what it is for. */
  readonly help: string
  /**
   * The value that stood in the texts before the placeholder: what a link carried is compared with it, so that making a
   * parameter turns no quote into a derivation. Null where none stood there, and for a secret.
   */
  readonly carried: string | null
  /** Fractional index. */
  readonly position: string
}

/** A procedure as it stood when someone marked it. Its texts are those of the revisions that it names. */
export interface Version {
  readonly id: VersionId
  readonly procedure: ProcedureId
  /** 1, 2, 3 … within the procedure. */
  readonly number: number
  readonly marked: Moment
  /** What changed, in one line. */
  readonly line: string
  readonly place: Place | null
  readonly steps: readonly Step[]
  readonly parts: readonly { readonly part: Part; readonly revision: RevisionId }[]
  readonly parameters: readonly Parameter[]
}

/** A short comment on a step. */
export interface Remark {
  readonly id: RemarkId
  readonly procedure: ProcedureId
  readonly step: StepId
  readonly made: Moment
  /** Markdown. */
  readonly text: string
  /** Null while it is open. */
  readonly settled: Moment | null
}

/** That a finding of the review is to be passed over. */
export interface Silence {
  readonly id: SilenceId
  readonly procedure: ProcedureId
  readonly rule: string
  /** Null for a finding about the procedure as a whole. */
  readonly step: StepId | null
  /** The words that the finding points at; it speaks up again when they change. */
  readonly words: string
  readonly reason: string
  readonly made: Moment
}

/** That something of the journal has no counterpart in a procedure, and why. */
export interface LeftOut {
  readonly id: LeftOutId
  readonly procedure: ProcedureId
  readonly entry: EntryId
  /** Null for the entry as a whole. */
  readonly command: readonly Piece[] | null
  readonly reason: string
  readonly made: Moment
}

/** What is known of one thing that a procedure wants from the network. */
export interface Fetch {
  readonly id: FetchId
  readonly procedure: ProcedureId
  /** What it is, as reading the commands names it: `package smartmontools`. */
  readonly item: string
  /** Null while it is still to be fetched. */
  readonly fetched: Moment | null
  /** Lower-case hex SHA-256 (FIPS 180-4) that it must have; null where none was noted. */
  readonly sha256: string | null
}

/** Things whose text has revisions. */
export type TextNode =
  { readonly kind: 'entry'; readonly id: EntryId } | { readonly kind: 'part'; readonly id: PartId }
export type TextNodeId = EntryId | PartId
/** Things that a link can join. */
export type LinkNode =
  | TextNode
  | { readonly kind: 'capture'; readonly id: CaptureId }
  | { readonly kind: 'source'; readonly id: SourceId }
export type LinkNodeId = LinkNode['id']

/** Half-open range of UTF-16 code units. */
export interface Range {
  readonly start: number
  readonly end: number
}

/**
 * W3C Web Annotation Data Model §4.2.4. Up to 32 code units of prefix and suffix; more, up to 256, where the words stand
 * more than once with so much around them.
 */
export interface TextQuoteSelector {
  readonly type: 'TextQuoteSelector'
  readonly exact: string
  readonly prefix: string
  readonly suffix: string
}

/** W3C Web Annotation Data Model §4.2.5, in UTF-16 code units; code points are made of them on export. */
export interface TextPositionSelector extends Range {
  readonly type: 'TextPositionSelector'
}

/** One range of an end, said twice: by words and by place. */
export interface Selector {
  readonly quote: TextQuoteSelector
  readonly position: TextPositionSelector
}

/** One end of a link, as it was when the words were carried. */
export interface LinkEnd {
  readonly node: LinkNode
  /** The revision of the node's text that the selectors speak of; null where the node has no text. */
  readonly revision: RevisionId | null
  /** In text order, not touching each other. Empty when the end is the thing as a whole. */
  readonly ranges: readonly Selector[]
}

/** What a person did to make a link. */
export const carryWays = ['drag', 'keyboard', 'button', 'copy', 'draft', 'sample'] as const
export type CarryWay = (typeof carryWays)[number]

/** A record of an act: never changes. What is true of it now stands in its LinkState. */
export interface Link {
  readonly id: LinkId
  readonly made: Moment
  readonly way: CarryWay
  readonly newer: LinkEnd
  readonly older: LinkEnd
  /**
   * The link that this one stands for since its words went to another text, or since a person said anew where they are. That
   * one left the present in the same Change; the past keeps it as it was. Absent for a link that was carried.
   */
  readonly revises?: LinkId
}

export const linkTypes = ['quotes', 'derives', 'cites', 'revises', 'answers', 'follows'] as const
export type LinkType = (typeof linkTypes)[number]

/** A run of characters by identity: those that `revision` typed, from the `start`-th to before the `end`-th. */
export interface Piece extends Range {
  readonly revision: RevisionId
}

/** Where one end of a link is now. */
export interface EndState {
  readonly node: LinkNodeId
  /** The characters that the end held when it was carried. */
  readonly pieces: readonly (readonly Piece[])[]
  /** One for each range of the end; null where none of its words is left. */
  readonly places: readonly (Range | null)[]
  /** No range of it can be found any more. */
  readonly loose: boolean
  /**
   * How certain the places are that were found again by their words, 0 to 1: the least certain one's score. Absent where
   * characters that were carried tell all of them.
   */
  readonly score?: number
}

/** Derived from a link and its nodes' revisions; can be rebuilt at any time. */
export interface LinkState {
  readonly link: LinkId
  readonly type: LinkType
  /** Share of the carried words that still stand in the newer text, 0 to 1. 1 where no words were carried. */
  readonly kept: number
  readonly newer: EndState
  readonly older: EndState
  readonly loose: boolean
}

/** A text as it stands now. */
export interface TextRecord {
  readonly node: TextNodeId
  readonly text: string
  /** The identities of its characters, in order; lengths add up to the text's. */
  readonly pieces: readonly Piece[]
}

/** JSON form of @codemirror/state's ChangeSet. */
export type ChangeSetJson = readonly (number | readonly [number, ...string[]])[]

/** One state of a text. Revisions of a node form a chain: each names the one before. */
export interface Revision {
  readonly id: RevisionId
  readonly node: TextNodeId
  /** 1, 2, 3 … within the node. */
  readonly number: number
  readonly from: RevisionId | null
  readonly changeSet: ChangeSetJson
  /**
   * Where the inserted characters are not new but brought back by an undo: their identities, in the order of insertion,
   * together as long as all that the change set inserts.
   */
  readonly restores: readonly Piece[] | null
  /** The text went out of use with its node; a later revision may bring it back. */
  readonly ended: boolean
  readonly moment: Moment
  readonly change: ChangeId
  /** SHA-256 of the blobs that the text names from here on, each once; so that they are kept. */
  readonly blobs: readonly string[]
}

/** Text that is being typed. One overwritten record for each owner and window; no Change. */
export type Draft = ComposerDraft | TextDraft

export interface ComposerDraft {
  readonly key: string
  readonly owner: 'composer'
  readonly window: WindowId
  readonly project: ProjectId
  readonly kind: EntryKind
  readonly text: string
  readonly facts: EntryFacts
  /** The problem that the entry will answer; null for none. */
  readonly answers: EntryId | null
  readonly saved: Moment
}

export interface TextDraft {
  readonly key: string
  readonly owner: 'text'
  readonly window: WindowId
  readonly node: TextNode
  readonly base: RevisionId
  /** From the base revision to `text`. */
  readonly changeSet: ChangeSetJson
  readonly text: string
  readonly saved: Moment
}

/** That a text was taken away for good: where, when and how much, never what. */
export interface Strike {
  readonly id: StrikeId
  readonly moment: Moment
  /** Where the person pointed at it. */
  readonly node: LinkNode
  readonly reason: string
  /** How many records were rewritten. */
  readonly records: number
}
