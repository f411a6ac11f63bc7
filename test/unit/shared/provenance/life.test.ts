import { expect, test } from 'vitest'
import type { Change } from '../../../../shared/lab/change.ts'
import type { PartId } from '../../../../shared/lab/ids.ts'
import type { Entry, EntryKind, Link, Part, Revision, Step, Version } from '../../../../shared/lab/model.ts'
import { toMoment, type Moment } from '../../../../shared/lab/moment.ts'
import { changeBetween } from '../../../../shared/lab/text.ts'
import {
  lifeOf,
  type LifeEntry,
  type LifeEvent,
  type LifeRecords,
} from '../../../../shared/provenance/life.ts'
import { textOf } from '../../../../shared/sources/difference.ts'

const step = { id: 'step', level: 'step' } as unknown as Step
const part = { id: 'do', step: 'step', kind: 'do' } as unknown as Part
const at = (minutes: number): Moment => toMoment(Date.UTC(2026, 2, 2, 20, minutes), 60)

const nothing: LifeRecords = {
  ...{ parts: [part], revisions: new Map(), links: [], entries: [], problems: [], versions: [], runs: [] },
}

const entryOf = (id: string, kind: EntryKind, minutes: number): LifeEntry => ({
  entry: { id, kind } as unknown as Entry,
  at: at(minutes),
  isWithdrawn: false,
})

/** A part that stood in each of these wordings, typed at these minutes by these people. */
function typed(wordings: readonly (readonly [string, number, string | null])[]) {
  const revisions: Revision[] = []
  const changes: Change[] = []
  wordings.forEach(([text, minutes, who], i) => {
    const id = `r${i}`
    const changeSet = changeBetween(wordings[i - 1]?.[0] ?? '', text)
    revisions.push({ id, node: 'do', number: i + 1, changeSet, change: `c${i}` } as unknown as Revision)
    const operation = { op: 'text', node: { kind: 'part', id: 'do' }, toRevision: id, changeSet, ends: false }
    const change = { id: `c${i}`, at: at(minutes), who, act: 'write', operations: [operation] }
    changes.push(change as unknown as Change)
  })
  return { records: { ...nothing, revisions: new Map([['do' as PartId, revisions]]) }, changes }
}

const wordings = (events: readonly LifeEvent[]): (readonly [string, string])[] =>
  events.flatMap((event) =>
    event.kind === 'words'
      ? [[textOf(event.difference, 'older'), textOf(event.difference, 'newer')] as const]
      : [],
  )

test('what one person types within ten minutes is told as one, until somebody else or a rest comes between', () => {
  const { records, changes } = typed([
    ['a', 0, null],
    ['a b', 8, null],
    ['a b c', 17, null],
    ['a b c d', 28, null],
    ['a b c d e', 29, 'Ada'],
  ])
  const events = lifeOf(step, records, changes)
  expect(wordings(events)).toEqual([
    ['', 'a b c'],
    ['a b c', 'a b c d'],
    ['a b c d', 'a b c d e'],
  ])
  expect(events[0]).toMatchObject({ kind: 'words', at: at(0), until: at(17) })
})

test('words that were typed and deleted in one sitting are not told', () => {
  const { records, changes } = typed([
    ['a', 0, null],
    ['a b', 30, null],
    ['a', 31, null],
  ])
  expect(wordings(lifeOf(step, records, changes))).toEqual([['', 'a']])
})

test('the revisions of a carry are its link, not typed words', () => {
  const { records, changes } = typed([['carried', 5, null]])
  const link = { id: 'l', newer: { node: { kind: 'part', id: 'do' }, revision: 'r0' } } as unknown as Link
  const carry = {
    ...changes[0]!,
    act: 'carry',
    operations: [...changes[0]!.operations, { op: 'put', table: 'links', record: link, before: null }],
  } as unknown as Change
  const events = lifeOf(step, { ...records, links: [link] }, [carry])
  expect(events).toMatchObject([
    { kind: 'carry', what: 'made', link: { id: 'l' }, deed: { act: 'carry', kind: 'do' } },
  ])
})

test('a link that no Change of the texts holds is told by its record', () => {
  const link = { id: 'l', made: at(3), newer: { node: { kind: 'part', id: 'do' }, revision: 'r0' } }
  const other = { id: 'm', made: at(4), newer: { node: { kind: 'part', id: 'other' }, revision: null } }
  const links = [link, other] as unknown as Link[]
  expect(lifeOf(step, { ...nothing, links, revisions: new Map() }, [])).toMatchObject([
    { kind: 'carry', at: at(3), link: { id: 'l' } },
  ])
})

test('the earliest entry is the first note, and a problem is told with what ended it', () => {
  const [note, problem, fix] = [
    entryOf('e1', 'observation', 1),
    entryOf('e2', 'problem', 2),
    entryOf('e3', 'fix', 9),
  ]
  const events = lifeOf(step, { ...nothing, entries: [fix, note], problems: [{ problem, ended: fix }] }, [])
  expect(events.map((event) => event.kind === 'entry' && [event.role, event.isFirst, event.at])).toEqual([
    ['note', true, at(1)],
    ['problem', false, at(2)],
    ['fix', false, at(9)],
  ])
  const open = lifeOf(step, { ...nothing, entries: [problem], problems: [{ problem, ended: null }] }, [])
  expect(open).toMatchObject([{ role: 'problem', isFirst: true }])
})

test('versions with the step are told, each with whether its texts are those of now; runs are taken as they come', () => {
  const { records, changes } = typed([
    ['a', 0, null],
    ['b', 40, null],
  ])
  const version = (number: number, minutes: number, revision: string, steps: readonly string[]) =>
    ({
      ...{ number, marked: at(minutes), steps: steps.map((id) => ({ id })) },
      parts: [{ part, revision }],
    }) as unknown as Version
  const versions = [
    version(1, 20, 'r0', ['step']),
    version(2, 30, 'r0', ['another']),
    version(3, 50, 'r1', ['another', 'step']),
  ]
  const runs = [{ at: at(60), version: 3, outcome: 'went well' }]
  const events = lifeOf(step, { ...records, versions, runs }, changes)
  const told = events.map((event) =>
    event.kind === 'version' ? `${event.version.number} ${String(event.isAsNow)}` : event.kind,
  )
  expect(told).toEqual(['words', '1 false', 'words', '3 true', 'run'])
})
