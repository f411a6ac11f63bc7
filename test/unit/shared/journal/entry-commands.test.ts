import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  commandsOfEntry,
  outcomeOfEntry,
  outcomeTogether,
} from '../../../../shared/journal/entry-commands.ts'
import { commandsOf } from '../../../../shared/journal/scrollback/commands.ts'
import { noFacts } from '../../../../shared/lab/acts.ts'
import type { EntryId, MarkId, ProjectId, RevisionId } from '../../../../shared/lab/ids.ts'
import { outcomes, type Entry, type Mark, type Outcome, type Piece } from '../../../../shared/lab/model.ts'
import { toMoment } from '../../../../shared/lab/moment.ts'

const entryOf = (exitCode: number | null | undefined, kind: Entry['kind'] = 'action'): Entry => ({
  ...noFacts,
  id: 'e' as EntryId,
  project: 'p' as ProjectId,
  kind,
  moment: toMoment(0, 0),
  ran: exitCode === undefined ? null : { exitCode, started: null, ended: null, log: 'gate.log' },
})
const markOf = (command: readonly Piece[] | null, set: Outcome): Mark => ({
  id: 'm' as MarkId,
  entry: 'e' as EntryId,
  moment: toMoment(1, 0),
  says: { kind: 'outcome', command, set, was: null },
})
const text = '```sh\nsystemctl stop logger\nsystemctl start logger\n```'
const pieces: Piece[] = [{ revision: 'r' as RevisionId, start: 0, end: text.length }]
const read = (entry: Entry, marks: readonly Mark[] = []) =>
  commandsOfEntry(entry, commandsOf(text), pieces, marks)

describe('the outcomes of an entry’s commands', () => {
  it('are each command’s own, by the identity of its characters', () => {
    const [stop] = read(entryOf(undefined))
    const marks = [markOf(stop!.pieces, 'failed')]
    expect(read(entryOf(undefined), marks).map(({ outcome }) => outcome)).toEqual(['failed', 'unknown'])
  })

  it('an exit code speaks of the last command alone', () => {
    expect(read(entryOf(0)).map(({ outcome }) => outcome)).toEqual(['unknown', 'succeeded'])
    expect(outcomeOfEntry(entryOf(0), read(entryOf(0)), [])).toBe('unknown')
  })

  it('what is set for the entry holds for every command of which nothing was said alone', () => {
    const [stop] = read(entryOf(undefined))
    const marks = [markOf(stop!.pieces, 'failed'), markOf(null, 'succeeded')]
    expect(read(entryOf(undefined), marks).map(({ outcome }) => outcome)).toEqual(['failed', 'succeeded'])
  })

  it('together they have succeeded only where every one did', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...outcomes), { maxLength: 6 }), (all) => {
        const together = outcomeTogether(all)
        expect(together === 'succeeded').toBe(
          all.length > 0 && all.filter((one) => one === 'succeeded').length === all.length,
        )
        expect(together === 'failed').toBe(all.some((one) => one === 'failed'))
      }),
    )
  })
})

describe('whether an entry has an outcome', () => {
  it('words alone have none, until a log or a person tells of one', () => {
    expect(outcomeOfEntry(entryOf(undefined), [], [])).toBeNull()
    expect(outcomeOfEntry(entryOf(null), [], [])).toBe('unknown')
    expect(outcomeOfEntry(entryOf(2), [], [])).toBe('failed')
    expect(outcomeOfEntry(entryOf(undefined), [], [markOf(null, 'succeeded')])).toBe('succeeded')
  })

  it('only an action has one', () => {
    expect(outcomeOfEntry(entryOf(0, 'output'), read(entryOf(0, 'output')), [])).toBeNull()
  })
})
