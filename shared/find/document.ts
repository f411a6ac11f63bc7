/** What the index holds of a thing of the lab: its words by field, and the facts that filters ask for. */
import type { EntryKind, SourceKind } from '../lab/model.ts'

/** What can be found. One document is one of these; a problem is an entry of its own thing, and so is a file. */
export const foundThings = [
  'source',
  'entry',
  'problem',
  'file',
  'command',
  'procedure',
  'step',
  'project',
  'machine',
] as const
export type FoundThing = (typeof foundThings)[number]

/** The fields of words, in the order in which their positions follow each other. */
export const findFields = ['title', 'technical', 'tags', 'text'] as const
export type FindField = (typeof findFields)[number]

/**
 * How many times a field's words count, as in Robertson, Zaragoza, Taylor: Simple BM25 extension to multiple weighted
 * fields (CIKM 2004): a document counts as if the field stood in it that often. Part of what is stored.
 */
export const fieldWeights: Readonly<Record<FindField, number>> = { title: 3, technical: 2, tags: 2, text: 1 }

export interface FindDocument {
  /** Unique among all documents of the lab; one without U+0000. Equal scores stand in the order of ids. */
  readonly id: string
  readonly thing: FoundThing
  /** Of a source or project its title, of a step its heading, of a machine its name; empty for none. */
  readonly title: string
  /** Commands, paths and addresses that stand in it, where they are known apart; they may stand in the text as well. */
  readonly technical: readonly string[]
  readonly tags: readonly string[]
  /** Markdown or plain text, as it is shown. */
  readonly text: string
  readonly facts: FindFacts
}

/** What is filtered by, never searched. */
export interface FindFacts {
  readonly kind: EntryKind | SourceKind | null
  /** Ids of projects. */
  readonly projects: readonly string[]
  /** Where it happened or lies: names of machines, hosts, users, directories, paths. */
  readonly places: readonly string[]
  /** When it happened, else when it was written or added; ms since 1970-01-01T00:00:00Z, null for never. */
  readonly moment: number | null
  /** An entry that was withdrawn: it is still read, but no longer stands. */
  readonly isWithdrawn: boolean
}
