import { describe, expect, it } from 'vitest'
import type { Operation } from '../../../../../shared/lab/change.ts'
import type { Revision } from '../../../../../shared/lab/model.ts'
import { thingsToSeal } from '../../../../../shared/journal/seal/applied.ts'
import { foldText } from '../../../../../shared/lab/text.ts'
import { Journal } from './scenario.ts'

const textOperation = (revision: Revision): Operation => ({
  op: 'text',
  node: { kind: 'entry', id: revision.node as never },
  fromRevision: revision.from,
  changeSet: revision.changeSet,
  toRevision: revision.id,
  restores: revision.restores,
  ends: false,
})

describe('what of a Change is sealed', () => {
  const journal = new Journal()
  const entry = journal.add('action', 'uptime')
  journal.amend(entry, 'uptime -p')
  journal.withdraw(entry)
  journal.mark(entry, { kind: 'outcome', command: null, set: 'failed', was: null })
  const revisions = journal.revisionsOf(entry.id)
  const written = new Map(
    revisions.map((record, i) => [record.id, { record, text: foldText(revisions.slice(0, i + 1)) }]),
  )
  const putEntry: Operation = { op: 'put', table: 'entries', record: entry, before: null }

  it('is an entry with its first text as one thing, whichever of them comes first', () => {
    const [first] = revisions as [Revision]
    for (const operations of [
      [putEntry, textOperation(first)],
      [textOperation(first), putEntry],
    ])
      expect(thingsToSeal(operations, written)).toEqual([
        { entry: entry.id, thing: { table: 'entries', record: entry, first: written.get(first.id) } },
      ])
  })

  it('is every amendment, withdrawal and mark alone, and nothing of procedures', () => {
    const [record] = journal.withdrawals
    const [mark] = journal.marks
    const operations: Operation[] = [
      textOperation(revisions[1]!),
      { op: 'put', table: 'withdrawals', record: record!, before: null },
      { op: 'put', table: 'marks', record: mark!, before: null },
      { ...textOperation(revisions[1]!), node: { kind: 'part', id: 'p' as never } } as Operation,
      { op: 'put', table: 'folders', record: {} as never, before: null },
    ]
    expect(thingsToSeal(operations, written).map(({ thing }) => `${thing.table} ${thing.record.id}`)).toEqual(
      [`revisions ${revisions[1]!.id}`, `withdrawals ${record!.id}`, `marks ${mark!.id}`],
    )
  })

  it('is a first text alone where the entry stood before', () => {
    expect(thingsToSeal([textOperation(revisions[0]!)], written).map(({ thing }) => thing.table)).toEqual([
      'revisions',
    ])
  })
})
