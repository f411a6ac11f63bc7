/** Which things of a lab have to be read again after some Changes, so that the index knows them as they stand. */
import type { Operation, StoredChange } from '../../lab/change.ts'
import type { EntryId, MachineId, PartId, ProcedureId, ProjectId, SourceId, StepId } from '../../lab/ids.ts'
import type { Part, Source, Step } from '../../lab/model.ts'

/** A thing that is a document, while it stands. */
export type ThingRef =
  | { readonly kind: 'source'; readonly id: SourceId }
  | { readonly kind: 'entry'; readonly id: EntryId }
  | { readonly kind: 'procedure'; readonly id: ProcedureId }
  | { readonly kind: 'step'; readonly id: StepId }
  | { readonly kind: 'project'; readonly id: ProjectId }
  | { readonly kind: 'machine'; readonly id: MachineId }

/** A thing, or something by which things are found in the store. */
export type TouchedRef =
  | ThingRef
  /** The step or procedure that a part belongs to. A part that is gone was named by the operation that removed it. */
  | { readonly kind: 'part'; readonly id: PartId }
  /** All rows of a procedure: each happens where the one before does, unless it says so itself. */
  | { readonly kind: 'rows'; readonly id: ProcedureId }
  /** All that lies or happened on a machine, whose name stands in their places. */
  | { readonly kind: 'placed on'; readonly id: MachineId }

/** What some Changes touched, each once. Striking out touches everything, and is told apart by its act. */
export function touchedThings(changes: readonly Pick<StoredChange, 'operations'>[]): TouchedRef[] {
  const touched = new Map<string, TouchedRef>()
  for (const { operations } of changes)
    for (const operation of operations)
      for (const ref of touchedBy(operation)) touched.set(`${ref.kind} ${ref.id}`, ref)
  return [...touched.values()]
}

function touchedBy(operation: Operation): readonly TouchedRef[] {
  if (operation.op === 'text') {
    const { kind, id } = operation.node
    return [kind === 'entry' ? { kind, id } : { kind, id }]
  }
  switch (operation.table) {
    case 'projects':
      return statesOf(operation).map(({ id }) => ({ kind: 'project', id }))
    case 'machines':
      return statesOf(operation).flatMap(({ id }) => [
        { kind: 'machine', id },
        { kind: 'placed on', id },
      ])
    case 'sources':
      return statesOf(operation).flatMap(refsOfSource)
    case 'captures':
      return statesOf(operation).map(({ source }) => ({ kind: 'source', id: source }))
    case 'entries':
      return statesOf(operation).map(({ id }) => ({ kind: 'entry', id }))
    case 'withdrawals':
    case 'marks':
    case 'entryTags':
      return statesOf<{ readonly entry: EntryId }>(operation).map(({ entry }) => ({
        kind: 'entry',
        id: entry,
      }))
    case 'procedures':
      return statesOf(operation).flatMap(({ id }) => [
        { kind: 'procedure', id },
        { kind: 'rows', id },
      ])
    case 'steps':
      return statesOf(operation).flatMap((step) => refsOfStep(step))
    case 'remarks':
      return statesOf(operation).map(({ step }) => ({ kind: 'step', id: step }))
    case 'parts':
      return statesOf(operation).map(refOfOwner)
    case 'parameters':
    case 'versions':
      return statesOf<{ readonly procedure: ProcedureId }>(operation).map(({ procedure }) => ({
        kind: 'procedure',
        id: procedure,
      }))
    case 'blobs':
    case 'folders':
    case 'verdicts':
    case 'links':
    // Why a finding was passed over or something left out is read where it was said.
    case 'silences':
    case 'leftOut':
    case 'fetches':
    case 'strikes':
      return []
  }
}

/** What stood there and what stands there now. */
function statesOf<R>(
  operation:
    | { readonly op: 'put'; readonly record: R; readonly before: R | null }
    | { readonly op: 'remove'; readonly before: R },
): R[] {
  if (operation.op === 'remove') return [operation.before]
  return operation.before === null ? [operation.record] : [operation.record, operation.before]
}

/** Other rows happen elsewhere only where this one says a place. */
function refsOfStep({ id, procedure, place }: Step): TouchedRef[] {
  const own: TouchedRef = { kind: 'step', id }
  return place === null ? [own] : [own, { kind: 'rows', id: procedure }]
}

/** A source shows the texts of those that were merged into it. */
function refsOfSource({ id, mergedInto }: Source): ThingRef[] {
  return (mergedInto === null ? [id] : [id, mergedInto]).map((one) => ({ kind: 'source', id: one }))
}

/** What a part belongs to. */
export function refOfOwner({ step, procedure }: Part): ThingRef {
  return step === null ? { kind: 'procedure', id: procedure } : { kind: 'step', id: step }
}
