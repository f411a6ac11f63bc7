/** What of a Change is to be sealed. */
import type { Operation } from '../../lab/change.ts'
import type { EntryId, RevisionId } from '../../lab/ids.ts'
import type { SealedText, SealedThing } from './model.ts'

/** Something to be sealed, in the chain of the project that the entry belongs to. */
export interface ToSeal {
  readonly entry: EntryId
  readonly thing: SealedThing
}

/**
 * What a Change did to journals, in its order: entries with their first texts, amendments, withdrawals and marks. A strike
 * is not among them; see `strikeSeals`.
 * @param operations as they were applied
 * @param written the revisions of entries that the Change wrote, by id, each with the whole text that it led to
 */
export function thingsToSeal(
  operations: readonly Operation[],
  written: ReadonlyMap<RevisionId, SealedText>,
): ToSeal[] {
  const firsts = new Map(
    [...written.values()]
      .filter(({ record }) => record.from === null)
      .map((text) => [text.record.node, text]),
  )
  const begun = new Set(operations.flatMap((operation) => maybeEntry(operation) ?? []))
  return operations.flatMap((operation): ToSeal[] => {
    if (operation.op === 'text') {
      const text = written.get(operation.toRevision)
      const { node, fromRevision } = operation
      if (node.kind !== 'entry' || !text || (fromRevision === null && begun.has(node.id))) return []
      return [{ entry: node.id, thing: { table: 'revisions', ...text } }]
    }
    if (operation.op !== 'put') return []
    const { table, record } = operation
    if (table === 'entries')
      return [{ entry: record.id, thing: { table, record, first: firsts.get(record.id) ?? null } }]
    if (table === 'withdrawals') return [{ entry: record.entry, thing: { table, record } }]
    return table === 'marks' ? [{ entry: record.entry, thing: { table, record } }] : []
  })
}

const maybeEntry = (operation: Operation): EntryId | null =>
  operation.op === 'put' && operation.table === 'entries' ? operation.record.id : null
