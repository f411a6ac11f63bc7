/** What answering reads of a lab beside its index: things with their texts, and what stands around them. */
import type { EntryKind, LinkNode, PartKind, SourceKind } from '../../lab/model.ts'
import type { Moment } from '../../lab/moment.ts'
import type { GraphLink, TraceDirection } from '../../provenance/graph.ts'
import type { FoundThing } from '../document.ts'
import type { LabIndex } from '../index/lab-index.ts'

/** A thing as a search names it. */
export interface AskRef {
  readonly id: string
  readonly thing: FoundThing
}

/** A thing of the lab as it stands. */
export interface AskThing extends AskRef {
  readonly kind: EntryKind | SourceKind | null
  /** Of a source, project or machine its own, of a procedure its title, of a step its heading; empty for none. */
  readonly title: string
  /** The titles that lead to it, the widest first: project, procedure, number of the step. */
  readonly way: readonly string[]
  /** When it happened, else when it was written or added; null for what has no moment of its own. */
  readonly moment: Moment | null
  /** Of a step, the procedure that it belongs to. */
  readonly procedure: string | null
  /** In the order in which they are shown. */
  readonly texts: readonly AskText[]
}

export interface AskText {
  /** What links join; null for what they do not: the aim of a project, the notes of a machine. */
  readonly node: LinkNode | null
  /** Of a procedure or step. */
  readonly part: PartKind | null
  readonly text: string
}

/**
 * The lab as a question sees it. Reads give what stands now; what does not stand is left out. A read that fails rejects, and
 * so does the answer.
 */
export interface AskSurroundings {
  readonly index: LabIndex
  /** In any order. */
  readThings(refs: readonly AskRef[]): Promise<readonly AskThing[]>
  /** Entries of the same journal that were written before and after one, in order, without itself. */
  readAround(entry: string, before: number, after: number): Promise<JournalAround>
  /** A procedure's rows in order. */
  readSteps(procedure: string): Promise<readonly AskThing[]>
  /** The links that lead from some nodes to what they came from, or to them from what came of them. In any order. */
  readLinks(nodes: readonly string[], direction: TraceDirection): Promise<readonly GraphLink[]>
}

export interface JournalAround {
  readonly before: readonly AskThing[]
  readonly after: readonly AskThing[]
}
