/** What a person does to a procedure's document: its parts, its steps, their order. */
import { generateKeyBetween, generateNKeysBetween } from 'fractional-indexing'
import type { Change, Operation } from './change.ts'
import type { ProcedureId, ProjectId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import {
  stepLevels,
  type FileState,
  type Link,
  type Part,
  type Procedure,
  type ProcedurePartKind,
  type Step,
  type StepLevel,
  type StepPartKind,
} from './model.ts'
import { beginText, endText, type StandingText } from './text-acts.ts'

export function addProcedure(around: Surroundings, project: ProjectId, title: string, purpose = '') {
  const procedure: Procedure = { id: around.ids.make(), project, created: around.clock.now(), place: null }
  const own = { procedure: procedure.id, step: null, file: null } as const
  const titlePart: Part = { ...own, id: around.ids.make(), kind: 'title' }
  const purposePart: Part = { ...own, id: around.ids.make(), kind: 'purpose' }
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

/** A row of a procedure of which nothing more is said. */
export function newStep(
  around: Surroundings,
  procedure: ProcedureId,
  position: string,
  level: StepLevel = 'step',
): Step {
  return { id: around.ids.make(), procedure, position, level, place: null, pointOfNoReturn: false }
}

/** A part of a step. @param file what it says of its file, for a part of the kind `file` */
export function newPart(
  around: Surroundings,
  step: Pick<Step, 'id' | 'procedure'>,
  kind: StepPartKind,
  file: FileState | null = null,
): Part & { readonly kind: StepPartKind } {
  return { id: around.ids.make(), procedure: step.procedure, step: step.id, kind, file }
}

/** An empty step, sub-step or section, ready to be written: what it does, or its heading. */
export function addStep(
  around: Surroundings,
  procedure: ProcedureId,
  position: string,
  level: StepLevel = 'step',
) {
  const step = newStep(around, procedure, position, level)
  const part = newPart(around, step, level === 'section' ? 'heading' : 'do')
  const operations = [put('steps', step), ...beginPart(around, part, '').operations]
  const act = level === 'section' ? 'add a section' : 'add a step'
  return { step, part, change: makeChange(around, act, operations) }
}

/** An empty part of a step, ready to be written. */
export function addPart(around: Surroundings, step: Step, kind: StepPartKind, file: FileState | null = null) {
  const part = newPart(around, step, kind, file)
  return { part, change: makeChange(around, 'add a part', beginPart(around, part, '').operations) }
}

/** A part of the procedure itself. */
export function newOwnPart(around: Surroundings, procedure: ProcedureId, kind: ProcedurePartKind): Part {
  return { id: around.ids.make(), procedure, step: null, kind, file: null }
}

/** An empty part of the procedure itself, ready to be written. */
export function addOwnPart(around: Surroundings, procedure: ProcedureId, kind: ProcedurePartKind) {
  const part = newOwnPart(around, procedure, kind)
  return { part, change: makeChange(around, 'add a part', beginPart(around, part, '').operations) }
}

/** What is said of a step beside its parts. */
export type StepFields = Partial<Pick<Step, 'level' | 'place' | 'pointOfNoReturn'>>

export function changeStep(around: Surroundings, step: Step, fields: StepFields): Change {
  return makeChange(around, 'change a step', [put('steps', { ...step, ...fields }, step)])
}

export function changeProcedure(
  around: Surroundings,
  procedure: Procedure,
  fields: Pick<Procedure, 'place'>,
): Change {
  return makeChange(around, 'change a procedure', [put('procedures', { ...procedure, ...fields }, procedure)])
}

/** Says another path, owner or mode of a part's file. */
export function changePartFile(around: Surroundings, part: Part, file: FileState): Change {
  return makeChange(around, 'say which file it is', [put('parts', { ...part, file } as Part, part)])
}

export function moveStep(around: Surroundings, step: Step, position: string): Change {
  return makeChange(around, 'move a step', [put('steps', { ...step, position }, step)])
}

/**
 * Moves several rows behind another, in the order in which they stand: a section with its steps, a step with its sub-steps,
 * a selection. One Change and one undo.
 * @param steps all of the procedure, in any order
 * @param after null for the head; one that moves itself stands for the nearest row before it that stays
 * @returns null where nothing would move
 */
export function moveSteps(
  around: Surroundings,
  steps: readonly Step[],
  moving: ReadonlySet<Step['id']>,
  after: Step | null,
): Change | null {
  const order = [...steps].sort(compareSteps)
  const staying = order.filter(({ id }) => !moving.has(id))
  const reach = after ? order.findIndex(({ id }) => id === after.id) : -1
  const low =
    order
      .slice(0, reach + 1)
      .filter(({ id }) => !moving.has(id))
      .at(-1) ?? null
  const rows = order.filter(({ id }) => moving.has(id))
  const at = low ? staying.indexOf(low) : -1
  const wanted = [...staying.slice(0, at + 1), ...rows, ...staying.slice(at + 1)]
  if (wanted.every(({ id }, i) => id === order[i]!.id)) return null
  const high = staying.slice(at + 1).find(({ position }) => low === null || position > low.position)
  const positions = generateNKeysBetween(low?.position ?? null, high?.position ?? null, rows.length)
  const operations = rows.map((row, i) => put('steps', { ...row, position: positions[i]! }, row))
  return makeChange(around, rows.length === 1 ? 'move a step' : 'move steps', operations)
}

/** A row with all that goes with it: a section its steps up to the next one, a step its sub-steps. */
export function rowsUnder(steps: readonly Step[], step: Step): Step[] {
  const order = [...steps].sort(compareSteps)
  const at = order.findIndex(({ id }) => id === step.id)
  const deeper = stepLevels.slice(stepLevels.indexOf(step.level) + 1)
  const behind = order.slice(at + 1)
  const end = behind.findIndex(({ level }) => !deeper.includes(level))
  return at < 0 ? [step] : [step, ...(end < 0 ? behind : behind.slice(0, end))]
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
  return removeSteps(around, [step], parts)
}

/** The same for several rows. @param parts all of theirs */
export function removeSteps(
  around: Surroundings,
  steps: readonly Step[],
  parts: readonly StandingPart[],
): Change {
  return makeChange(around, steps.length === 1 ? 'remove a step' : 'remove steps', [
    ...removalOfParts(around, parts),
    ...steps.map((before) => ({ op: 'remove', table: 'steps', before }) as const),
  ])
}
