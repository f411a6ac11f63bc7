import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  dayNameOf,
  filterEntries,
  nextEntry,
  noFilter,
  rowsOf,
  timeBeside,
} from '../../../../../renderer/panes/journal/rows.ts'
import { noFacts } from '../../../../../shared/lab/acts.ts'
import type { EntryId, ProjectId } from '../../../../../shared/lab/ids.ts'
import { entryKinds, type Entry, type EntryKind, type EntryTags } from '../../../../../shared/lab/model.ts'
import { offsetOf, toMoment, type Moment } from '../../../../../shared/lab/moment.ts'

const entry = (id: string, moment: string, kind: EntryKind = 'action'): Entry => ({
  id: id as EntryId,
  project: 'p' as ProjectId,
  kind,
  moment: moment as Moment,
  ...noFacts,
})

const evening = [
  entry('a', '2026-11-14T23:58:00.000+01:00'),
  entry('b', '2026-11-15T00:03:00.000+01:00', 'problem'),
  entry('c', '2026-11-15T00:20:00.000+01:00', 'fix'),
]

const anyEntries = fc
  .array(
    fc.record({
      ms: fc.integer({ min: 0, max: 3 * 86_400_000 }),
      offset: fc.constantFrom(-330, 0, 60, 120),
      kind: fc.constantFrom(...entryKinds),
    }),
    { maxLength: 30 },
  )
  .map((all) => all.map(({ ms, offset, kind }, at) => entry(`e${at}`, toMoment(ms, offset), kind)))

describe('rowsOf', () => {
  it('sets a head before each day of the place where the entries were written', () => {
    expect(rowsOf(evening).map((row) => (row.kind === 'day' ? row.name : row.key))).toEqual([
      'Saturday, 14 November 2026',
      'a',
      'Sunday, 15 November 2026',
      'b',
      'c',
    ])
  })

  it('says the offset at first and where it changes, also within a day', () => {
    const travelled = [...evening, entry('d', '2026-11-15T00:30:00.000+00:00')]
    const offsets = rowsOf(travelled).flatMap((row) => (row.kind === 'day' ? [row.offset] : []))
    expect(offsets).toEqual(['UTC+01:00', null, 'UTC+00:00'])
  })

  it('keeps every entry once, in order, each under a head of its own day and under its own offset', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const rows = rowsOf(entries)
        expect(rows.flatMap((row) => (row.kind === 'entry' ? [row.entry] : []))).toEqual(entries)
        expect(new Set(rows.map(({ key }) => key)).size).toBe(rows.length)
        let name = ''
        let offset = ''
        for (const row of rows)
          if (row.kind === 'day') {
            name = row.name
            offset = row.offset ?? offset
          } else {
            expect(name).toBe(dayNameOf(row.entry.moment))
            expect(offset).toBe(`UTC${row.entry.moment.slice(23)}`)
            expect(Number.isFinite(offsetOf(row.entry.moment))).toBe(true)
          }
      }),
    )
  })

  it('has no two heads without an entry between them', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const kinds = rowsOf(entries).map(({ kind }) => kind)
        expect(kinds.some((kind, at) => kind === 'day' && kinds[at + 1] !== 'entry')).toBe(false)
      }),
    )
  })
})

describe('filterEntries', () => {
  const texts = new Map([
    ['a' as EntryId, 'systemctl stop weather-logger'],
    ['b' as EntryId, 'It still runs from the CARD'],
    ['c' as EntryId, 'Put the PARTUUID in both files'],
  ])
  const noTags = new Map<string, EntryTags>()

  it('lets everything through where nothing is asked for', () => {
    expect(filterEntries(evening, texts, noFilter, noTags)).toBe(evening)
  })

  it('shows the chosen kinds only', () => {
    const kinds = new Set(['problem', 'fix'] as const)
    const shown = filterEntries(evening, texts, { ...noFilter, kinds }, noTags)
    expect(shown.map(({ id }) => id)).toEqual(['b', 'c'])
  })

  it('wants every word, in any case and any order', () => {
    const shown = (words: string) =>
      filterEntries(evening, texts, { ...noFilter, words }, noTags).map(({ id }) => id)
    expect(shown('card STILL')).toEqual(['b'])
    expect(shown('card files')).toEqual([])
    expect(shown('  t ')).toEqual(['a', 'b', 'c'])
  })

  it('wants every chosen tag', () => {
    const tags = new Map(
      [
        { entry: 'a' as EntryId, tags: ['boot', 'disk'] },
        { entry: 'c' as EntryId, tags: ['boot'] },
      ].map((one) => [one.entry, one]),
    )
    const shown = (...wanted: string[]) =>
      filterEntries(evening, texts, { ...noFilter, tags: new Set(wanted) }, tags).map(({ id }) => id)
    expect(shown('boot')).toEqual(['a', 'c'])
    expect(shown('disk', 'boot')).toEqual(['a'])
    expect(shown('Boot')).toEqual([])
  })
})

describe('nextEntry', () => {
  const rows = rowsOf(evening)

  it('passes over the heads and stops at the ends', () => {
    expect(nextEntry(rows, 'a', 'ArrowDown')).toBe('b')
    expect(nextEntry(rows, 'b', 'ArrowUp')).toBe('a')
    expect(nextEntry(rows, 'c', 'ArrowDown')).toBeNull()
    expect(nextEntry(rows, 'a', 'ArrowUp')).toBeNull()
  })

  it('goes to the first and the last', () => {
    expect(nextEntry(rows, 'b', 'Home')).toBe('a')
    expect(nextEntry(rows, 'b', 'End')).toBe('c')
    expect(nextEntry(rows, 'c', 'End')).toBeNull()
    expect(nextEntry(rows, 'b', 'x')).toBeNull()
  })
})

describe('timeBeside', () => {
  it('names the date only where it is another', () => {
    expect(timeBeside(evening[1]!.moment, evening[2]!.moment)).toBe('00:03')
    expect(timeBeside(evening[1]!.moment, evening[0]!.moment)).toBe('2026-11-15 00:03')
  })
})
