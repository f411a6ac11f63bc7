/** What a person can do, each as a pure function from what stands to a Change. Carrying has a file of its own. */
import type { Change, Operation } from './change.ts'
import type { EntryId, ProjectId, RevisionId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type {
  Blob,
  ChangeSetJson,
  Entry,
  EntryFacts,
  EntryKind,
  Link,
  Project,
  TextNode,
  Withdrawal,
} from './model.ts'
import { beginText } from './text-acts.ts'

export * from './making.ts'
export * from './text-acts.ts'
export * from './procedure-acts.ts'
export * from './parameter-acts.ts'
export * from './beside-acts.ts'
export * from './source-acts.ts'
export * from './folder-acts.ts'
export * from './tag-acts.ts'
export * from './machine-acts.ts'
export * from './mark-acts.ts'

export interface ProjectFields {
  readonly title: string
  readonly aim: string
  readonly status: Project['status']
  /** None where nothing is said. */
  readonly tags?: readonly string[]
  /** None where nothing is said. */
  readonly folder?: Project['folder']
}

export function addProject(around: Surroundings, fields: ProjectFields) {
  const project: Project = {
    tags: [],
    folder: null,
    ...fields,
    id: around.ids.make(),
    created: around.clock.now(),
  }
  return { project, change: makeChange(around, 'add a project', [put('projects', project)]) }
}

export function changeProject(
  around: Surroundings,
  project: Project,
  fields: Partial<ProjectFields>,
): Change {
  return makeChange(around, 'change a project', [put('projects', { ...project, ...fields }, project)])
}

/** What an entry says of itself that was just written of the present, and of no file and no place. */
export const noFacts: EntryFacts = { happened: null, under: null, place: null, ran: null, file: null }

export interface EntryInput extends Partial<EntryFacts> {
  readonly project: ProjectId
  readonly kind: EntryKind
  readonly text: string
}

/** The operations of a new entry; carrying adds its link to them. */
export function entryOperations(around: Surroundings, { text, ...facts }: EntryInput) {
  const entry: Entry = { ...noFacts, ...facts, id: around.ids.make(), moment: around.clock.now() }
  const begin = beginText(around, { kind: 'entry', id: entry.id }, text)
  return { entry, revision: begin.toRevision, operations: [put('entries', entry), begin] as const }
}

/** @param answers the problem that the entry, a fix or a decision, ends; it is said in the same Change */
export function addEntry(around: Surroundings, input: EntryInput, answers: EntryId | null = null) {
  const { entry, revision, operations } = entryOperations(around, input)
  const links = answers ? [answering(around, entry.id, answers, 'button')] : []
  return { entry, revision, change: makeChange(around, 'add an entry', [...operations, ...links]) }
}

/**
 * Adds several entries by one act: commands taken from a log, photos of one batch.
 * @param blobs that the entries' texts or files name
 */
export function addEntries(around: Surroundings, inputs: readonly EntryInput[], blobs: readonly Blob[] = []) {
  const made = inputs.map((input) => entryOperations(around, input))
  const operations = [...blobs.map((blob) => put('blobs', blob)), ...made.flatMap((one) => one.operations)]
  return { entries: made.map(({ entry }) => entry), change: makeChange(around, 'add entries', operations) }
}

/** Keeps the bytes of pictures before the text that names them is an entry. Equal bytes are kept once. */
export function keepPictures(around: Surroundings, blobs: readonly Blob[]): Change {
  return makeChange(
    around,
    'keep pictures',
    blobs.map((blob) => put('blobs', blob)),
  )
}

/**
 * Withdraws an entry, or brings a withdrawn one back: a further record, so that the journal keeps both. What was carried
 * from the entry and where it came from keep their links.
 */
export function withdrawEntry(around: Surroundings, entry: EntryId, withdrawn = true): Change {
  const record: Withdrawal = { id: around.ids.make(), entry, moment: around.clock.now(), withdrawn }
  const act = withdrawn ? 'withdraw an entry' : 'bring an entry back'
  return makeChange(around, act, [put('withdrawals', record)])
}

/** Says that a fix or decision ended a problem. */
export function answerProblem(
  around: Surroundings,
  newer: EntryId,
  older: EntryId,
  way: Link['way'],
): Change {
  return makeChange(around, 'answer a problem', [answering(around, newer, older, way)])
}

function answering(around: Surroundings, newer: EntryId, older: EntryId, way: Link['way']): Operation {
  const whole = (id: EntryId): Link['newer'] => ({ node: { kind: 'entry', id }, revision: null, ranges: [] })
  const link: Link = {
    id: around.ids.make(),
    made: around.clock.now(),
    way,
    newer: whole(newer),
    older: whole(older),
  }
  return put('links', link)
}

/** Cuts a revision: of an entry that is an amendment, of a part it is writing. */
export function writeText(
  around: Surroundings,
  node: TextNode,
  fromRevision: RevisionId,
  changeSet: ChangeSetJson,
): { readonly change: Change; readonly revision: RevisionId } {
  const revision: RevisionId = around.ids.make()
  const operation: Operation = {
    op: 'text',
    node,
    fromRevision,
    changeSet,
    toRevision: revision,
    restores: null,
    ends: false,
  }
  return {
    revision,
    change: makeChange(around, node.kind === 'entry' ? 'amend an entry' : 'write', [operation]),
  }
}
