import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  dayAndTimeOf,
  factsOf,
  filterRows,
  shortAddress,
  sourceRows,
  titleOf,
} from '../../../../../renderer/panes/sources/rows.ts'
import { sourcesElsewhere } from '../../../../../renderer/panes/sources/elsewhere.ts'
import type { EntryId, ProjectId, SourceId } from '../../../../../shared/lab/ids.ts'
import type { CaptureHead, Link, LinkNode, Project, Source } from '../../../../../shared/lab/model.ts'
import type { Moment } from '../../../../../shared/lab/moment.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

const { ids, clock } = repeatableSurroundings()
const here = ids.make<ProjectId>()

function source(title: string, more: Partial<Source> = {}): Source {
  return {
    id: ids.make<SourceId>(),
    title,
    address: null,
    kind: 'text',
    wayIn: 'typed',
    added: '2026-11-14T18:31:07.000+01:00' as Moment,
    projects: [here],
    author: null,
    dated: null,
    bookmarked: null,
    tags: [],
    folders: [],
    pinned: false,
    setAside: false,
    remark: '',
    mergedInto: null,
    ...more,
  }
}

function capture(of: Source): CaptureHead {
  return {
    id: ids.make(),
    source: of.id,
    taken: clock.now(),
    revision: ids.make(),
    sha256: 'x',
    wayIn: 'typed',
    saved: null,
    pages: [],
    notes: [],
    length: 3,
  }
}

function linkTo(node: LinkNode): Link {
  const newer = { node: { kind: 'entry', id: ids.make<EntryId>() }, revision: null, ranges: [] } as const
  return {
    id: ids.make(),
    made: clock.now(),
    way: 'drag',
    newer,
    older: { node, revision: null, ranges: [] },
  }
}

const byId = <T extends { readonly id: string }>(records: readonly T[]): Map<string, T> =>
  new Map(records.map((record) => [record.id, record]))

describe('the rows of the list', () => {
  const gauge = source('Rain gauge')
  const disk = source('Disk')
  const [first, second] = [capture(gauge), capture(gauge)]
  const rows = sourceRows({
    sources: byId([gauge, disk]),
    captures: byId([second, first]),
    links: byId([
      linkTo({ kind: 'capture', id: first.id }),
      linkTo({ kind: 'capture', id: second.id }),
      linkTo({ kind: 'source', id: gauge.id }),
      linkTo({ kind: 'entry', id: ids.make<EntryId>() }),
      linkTo({ kind: 'capture', id: ids.make() }),
    ]),
  })

  test('the source that was added last stands first', () => {
    expect(rows.map((row) => row.source.title)).toEqual(['Disk', 'Rain gauge'])
  })
  test('links to a source and to any of its captures are counted, others are not', () => {
    expect(rows.map((row) => row.uses)).toEqual([0, 3])
  })
  test('the newest capture is the one whose id is the greatest, whatever the order they come in', () => {
    expect(rows.map((row) => row.newest?.id)).toEqual([undefined, second.id])
  })
  test('the facts say kind, day and how much was carried', () => {
    expect(rows.map(factsOf)).toEqual(['Text, added 14 Nov 2026', 'Text, added 14 Nov 2026, 3 carried'])
  })
})

describe('filtering by words', () => {
  const rows = sourceRows({
    sources: byId([
      source('Überspannung am Mast', { address: 'https://docs.example.org/surge' }),
      source('Surge protection', { kind: 'page' }),
    ]),
    captures: new Map(),
    links: new Map(),
  })
  const titles = (words: string) => filterRows(rows, words).map((row) => row.source.title)

  test('every word must stand in title, address or kind, in any case and order', () => {
    expect(titles('SURGE')).toEqual(['Surge protection', 'Überspannung am Mast'])
    expect(titles('page surge')).toEqual(['Surge protection'])
    expect(titles('surge gauge')).toEqual([])
  })
  test('accents make no difference', () => {
    expect(titles('uberspannung')).toEqual(['Überspannung am Mast'])
  })
  test('no words leave every row', () => {
    expect(filterRows(rows, '  \t')).toBe(rows)
  })
  test('a row is found by any piece of its title', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1 }), fc.nat(), fc.nat(), (title, a, b) => {
        const one = sourceRows({ sources: byId([source(title)]), captures: new Map(), links: new Map() })
        const points = Array.from(title)
        const [from, to] = [a % (points.length + 1), b % (points.length + 1)].sort((x, y) => x - y)
        expect(filterRows(one, points.slice(from, to).join('')).length).toBe(1)
      }),
    )
  })
})

test('a moment is shown by the calendar and clock of where it was written', () => {
  expect(dayAndTimeOf('2026-01-05T23:07:00.000-09:30' as Moment)).toBe('5 Jan 2026, 23:07')
})

test('an address is shortened by its scheme and a last slash only', () => {
  expect(shortAddress('https://docs.example.org/')).toBe('docs.example.org')
  expect(shortAddress('http://192.0.2.7:8080/a/?b=https://c/')).toBe('192.0.2.7:8080/a/?b=https://c')
})

test('a source without a title is called by its address', () => {
  expect(titleOf({ title: ' ', address: 'https://docs.example.org/x' })).toBe('docs.example.org/x')
  expect(titleOf({ title: '', address: null })).toBe('Untitled source')
})

describe('sources elsewhere', () => {
  const project = (title: string): Project => ({
    id: ids.make(),
    title,
    aim: '',
    status: 'done',
    created: clock.now(),
    tags: [],
  })
  const [time, dome] = [project('Time'), project('Dome')]

  test('each source of other projects stands once, under its first project', () => {
    const both = source('Both', { projects: [dome.id, time.id] })
    const own = source('Own', { projects: [here, time.id] })
    const left = source('Left', { projects: [] })
    const groups = sourcesElsewhere([both, own, left], [time, dome], here)
    expect(
      groups.map(({ project: of, sources }) => [of?.title ?? null, sources.map(({ title }) => title)]),
    ).toEqual([
      ['Time', ['Both']],
      [null, ['Left']],
    ])
  })
  test('there is nothing where this project uses every source', () => {
    expect(sourcesElsewhere([source('Own')], [time], here)).toEqual([])
  })
})
