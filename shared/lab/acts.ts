/** What a person can do, each as a pure function from what stands to a Change. Carrying has a file of its own. */
import { generateKeyBetween } from 'fractional-indexing'
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
  Part,
  Procedure,
  Project,
  Step,
  StepPartKind,
  TextNode,
  Withdrawal,
} from './model.ts'
import { deletingAll, insertingAll, toStorableText } from './text.ts'

export * from './making.ts'
export * from './source-acts.ts'
export * from './folder-acts.ts'
export * from './tag-acts.ts'
export * from './machine-acts.ts'
export * from './mark-acts.ts'

/** A text's first revision. */
export function beginText(around: Surroundings, node: TextNode, text: string): Operation & { op: 'text' } {
  return {
    op: 'text',
    node,
    fromRevision: null,
    changeSet: insertingAll(toStorableText(text)),
    toRevision: around.ids.make(),
    restores: null,
    ends: false,
  }
}

/** A text's last revision, when its node goes. */
export function endText(
  around: Surroundings,
  node: TextNode,
  text: StandingText,
): Operation & { op: 'text' } {
  return {
    op: 'text',
    node,
    fromRevision: text.revision,
    changeSet: deletingAll(text.text.length),
    toRevision: around.ids.make(),
    restores: null,
    ends: true,
  }
}

/** A text as it stands, with the revision that says so. */
export interface StandingText {
  readonly text: string
  readonly revision: RevisionId
}

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

export function addProcedure(around: Surroundings, project: ProjectId, title: string, purpose = '') {
  const procedure: Procedure = { id: around.ids.make(), project, created: around.clock.now() }
  const titlePart: Part = { id: around.ids.make(), procedure: procedure.id, step: null, kind: 'title' }
  const purposePart: Part = { id: around.ids.make(), procedure: procedure.id, step: null, kind: 'purpose' }
  const operations = [
    put('procedures', procedure),
    ...beginPart(around, titlePart, title).operations,
    ...beginPart(around, purposePart, purpose).operations,
  ]
  return { procedure, titlePart, purposePart, change: makeChange(around, 'add a procedure', operations) }
}

/** The operations of a new part with its first text. */
export function beginPart(around: Surroundings, part: Part, text: string) {
  const begin = beginText(around, { kind: 'part', id: part.id }, text)
  return { revision: begin.toRevision, operations: [put('parts', part), begin] as const }
}

/** A step before others, behind others or between two: `null` for an end of the procedure. */
export function positionBetween(before: Step | null, after: Step | null): string {
  const [low, high] = [before?.position ?? null, after?.position ?? null]
  // Two windows may have made the same position; behind both is then the nearest that can be named.
  return low !== null && high !== null && low >= high
    ? generateKeyBetween(low, null)
    : generateKeyBetween(low, high)
}

/** Steps in their order. Equal positions, made in two windows at once, stand in the order of their ids. */
export function compareSteps(a: Step, b: Step): number {
  if (a.position !== b.position) return a.position < b.position ? -1 : 1
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0
}

/**
 * The position for a step that comes behind `after` (null: at the head) among a procedure's steps, in any order.
 * A step that is to come behind itself stays where it is. Where several stand at one position, made in two windows at
 * once, it comes behind all of them and before the next.
 */
export function positionAfter(steps: readonly Step[], after: Step | null, moving?: Step): string {
  if (after && moving && after.id === moving.id) return moving.position
  const others = steps.filter(({ id }) => id !== moving?.id).sort(compareSteps)
  const at = after ? others.findIndex(({ id }) => id === after.id) : -1
  const low = others[at] ?? null
  const high = others.slice(at + 1).find(({ position }) => low === null || position > low.position)
  return positionBetween(low, high ?? null)
}

/** An empty step, ready to be written. */
export function addStep(around: Surroundings, procedure: Procedure['id'], position: string) {
  const step: Step = { id: around.ids.make(), procedure, position }
  const part: Part = { id: around.ids.make(), procedure, step: step.id, kind: 'do' }
  const operations = [put('steps', step), ...beginPart(around, part, '').operations]
  return { step, part, change: makeChange(around, 'add a step', operations) }
}

/** An empty part of a step, ready to be written. */
export function addPart(around: Surroundings, step: Step, kind: StepPartKind) {
  const part: Part = { id: around.ids.make(), procedure: step.procedure, step: step.id, kind }
  return { part, change: makeChange(around, 'add a part', beginPart(around, part, '').operations) }
}

export function moveStep(around: Surroundings, step: Step, position: string): Change {
  return makeChange(around, 'move a step', [put('steps', { ...step, position }, step)])
}

/** A part with all that goes with it. */
export interface StandingPart {
  readonly part: Part
  readonly text: StandingText
  /** The links that lead from this part to where it came from. */
  readonly links: readonly Link[]
}

/** All links go before any part, and so come back behind all parts: a part may have been copied from its neighbour. */
function removalOfParts(around: Surroundings, parts: readonly StandingPart[]): Operation[] {
  return [
    ...parts.flatMap(({ links }) =>
      links.map((link) => ({ op: 'remove', table: 'links', before: link }) as const),
    ),
    ...parts.flatMap(({ part, text }): Operation[] => [
      endText(around, { kind: 'part', id: part.id }, text),
      { op: 'remove', table: 'parts', before: part },
    ]),
  ]
}

export function removePart(around: Surroundings, part: StandingPart): Change {
  return makeChange(around, 'remove a part', removalOfParts(around, [part]))
}

/** Takes a step with all its parts and their links out of the present. The past keeps them; undo brings them back. */
export function removeStep(around: Surroundings, step: Step, parts: readonly StandingPart[]): Change {
  return makeChange(around, 'remove a step', [
    ...removalOfParts(around, parts),
    { op: 'remove', table: 'steps', before: step },
  ])
}
