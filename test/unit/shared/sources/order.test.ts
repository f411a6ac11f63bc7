import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  toChosenOrder,
  toKeptApart,
  usualOrder,
  withoutGone,
} from '../../../../shared/sources/chosen-order.ts'
import { findSameSources, likeliestKept, sameAs } from '../../../../shared/sources/duplicates.ts'
import { toSourceFacts, type SourceFacts } from '../../../../shared/sources/facts.ts'
import { noFilter } from '../../../../shared/sources/filter.ts'
import { toFolderTree } from '../../../../shared/sources/folder-tree.ts'
import { sortFacts, sourceSorts } from '../../../../shared/sources/sort.ts'
import { anyFilter, anyTables, factsOf, folder, head, idOf, projects, source, tablesOf } from './scene.ts'

const titles = (rows: readonly SourceFacts[]) => rows.map(({ source: { title } }) => title)

describe('sorting sources', () => {
  const rows = toSourceFacts(
    tablesOf(
      [
        source(1, { title: 'disk 10', dated: '2020-05' }),
        source(2, { title: 'Disk 9', dated: '2021' }),
        source(3, { title: '', address: 'https://a.example.org/', pinned: true }),
        source(4, { title: 'ärger', dated: '2020-05-02' }),
      ],
      [],
      [],
      { [idOf('source', 1)]: 2, [idOf('source', 4)]: 2 },
    ),
  )
  const sorted = (sort: (typeof sourceSorts)[number]) =>
    sortFacts(rows, sort).map(({ source: { id } }) => +id.slice(-1))

  it('puts pinned ones first, whatever the order', () => {
    for (const sort of sourceSorts) expect(sorted(sort)[0]).toBe(3)
  })
  it('goes by time, title, use or the date that a document states', () => {
    expect(sorted('newest')).toEqual([3, 4, 2, 1])
    expect(sorted('oldest')).toEqual([3, 1, 2, 4])
    expect(sorted('title')).toEqual([3, 4, 2, 1])
    expect(sorted('most used')).toEqual([3, 4, 1, 2])
    expect(sorted('dated')).toEqual([3, 2, 4, 1])
  })
  it('loses none, and comes to the same from any order', () => {
    fc.assert(
      fc.property(
        anyTables,
        fc.constantFrom(...sourceSorts),
        fc.infiniteStream(fc.nat()),
        (tables, sort, keys) => {
          const all = toSourceFacts(tables)
          const shuffled = all
            .map((row) => ({ row, key: keys.next().value as number }))
            .sort((a, b) => a.key - b.key)
          const once = sortFacts(all, sort)
          expect(
            sortFacts(
              shuffled.map(({ row }) => row),
              sort,
            ),
          ).toEqual(once)
          expect([...once].sort((a, b) => (a.source.id < b.source.id ? -1 : 1))).toEqual(all)
        },
      ),
    )
  })
})

describe('sources that are the same as others', () => {
  it('have an address in common, however it is spelt, or the bytes of any capture', () => {
    const all = [
      source(1, { title: 'a', address: 'http://a.example.org/x?utm_source=mail' }),
      source(2, { title: 'b', address: 'https://a.example.org/x' }),
      source(3, { title: 'c', address: 'https://a.example.org/y' }),
      source(4, { title: 'd' }),
      source(5, { title: 'e' }),
    ]
    const heads = [head(1, all[1]!, 'same'), head(2, all[3]!, 'other'), head(3, all[3]!, 'same')]
    const [group, ...more] = findSameSources(toSourceFacts(tablesOf(all, heads)))
    expect(more).toEqual([])
    expect(titles(group!.members)).toEqual(['a', 'b', 'd'])
    expect(
      group!.members.map((row) => sameAs(row, group!)).map(({ by, others }) => [by, titles(others)]),
    ).toEqual([
      ['address', ['b']],
      ['address', ['a']],
      ['content', ['b']],
    ])
  })

  it('are no group any more once they were said to be different, until another one comes', () => {
    const same = [1, 2, 3].map((at) => source(at, { address: 'https://a.example.org/' }))
    const ids = same.map(({ id }) => id)
    expect(findSameSources(factsOf(...same), [ids])).toEqual([])
    expect(findSameSources(factsOf(same[0]!, same[2]!), [ids])).toEqual([])
    expect(findSameSources(factsOf(...same), [ids.slice(1)])[0]!.members).toHaveLength(3)
  })

  it('make the groups that a naive closure makes', () => {
    const anyApart = fc.array(fc.uniqueArray(fc.nat(8), { minLength: 2, maxLength: 4 }), { maxLength: 2 })
    fc.assert(
      fc.property(anyTables, anyApart, (tables, apartAt) => {
        const rows = toSourceFacts(tables)
        const apart = apartAt.map((set) => set.map((at) => idOf<string>('source', at)))
        const found = findSameSources(rows, apart).map(({ members }) =>
          members.map(({ source: { id } }) => id),
        )
        expect(found).toEqual(naiveGroups(rows, apart))
      }),
      { numRuns: 400 },
    )
  })

  it('are kept by use and then by age', () => {
    const all = [source(1), source(2), source(3)]
    const rows = toSourceFacts(tablesOf(all, [], [], { [all[1]!.id]: 2, [all[2]!.id]: 2 }))
    expect(likeliestKept(rows).source.id).toBe(all[1]!.id)
    expect(likeliestKept(rows.slice(0, 1)).source.id).toBe(all[0]!.id)
  })
})

function naiveGroups(rows: readonly SourceFacts[], apart: readonly (readonly string[])[]): string[][] {
  const features = (row: SourceFacts) => [
    ...(row.key === null ? [] : [`a${row.key}`]),
    ...row.digests.map((one) => `c${one}`),
  ]
  const isAlike = (a: SourceFacts, b: SourceFacts): boolean =>
    features(a).some((feature) => {
      if (!features(b).includes(feature)) return false
      const all = rows.filter((row) => features(row).includes(feature)).map(({ source: { id } }) => id)
      return !apart.some((set) => all.every((id) => set.includes(id)))
    })
  const reach = (from: SourceFacts): Set<SourceFacts> => {
    const reached = new Set([from])
    for (const one of reached) for (const other of rows) if (isAlike(one, other)) reached.add(other)
    return reached
  }
  const groups = rows.map((row) =>
    rows.filter((other) => reach(row).has(other)).map(({ source: { id } }) => id),
  )
  return [
    ...new Map(groups.filter((group) => group.length > 1).map((group) => [group.join(), group])).values(),
  ]
}

describe('what was chosen for the list', () => {
  it('comes back as it was kept', () => {
    fc.assert(
      fc.property(anyFilter, fc.constantFrom(...sourceSorts), (filter, sort) => {
        const kept: unknown = JSON.parse(JSON.stringify({ filter, sort }))
        const back = toChosenOrder(kept)
        expect({ ...back.filter, kinds: [...back.filter.kinds].sort() }).toEqual({
          ...filter,
          kinds: [...filter.kinds].sort(),
        })
        expect(back.sort).toBe(sort)
      }),
    )
  })
  it('is the usual where what was kept means nothing', () => {
    for (const kept of [
      null,
      undefined,
      7,
      'x',
      [],
      {},
      { filter: { kinds: ['film'], from: 'May', flags: 1 }, sort: 'x' },
    ])
      expect(toChosenOrder(kept)).toEqual(usualOrder)
  })
  it('lets go of folders and projects that are gone', () => {
    const tree = toFolderTree([folder(1, 'Rack')])
    const filter = { ...noFilter, folder: folder(1, 'Rack').id, project: projects[0]! }
    expect(withoutGone(filter, tree, [{ id: projects[0]! }])).toBe(filter)
    expect(withoutGone({ ...filter, project: 'none' }, tree, [])).toMatchObject({ project: 'none' })
    expect(withoutGone(filter, toFolderTree([]), [])).toEqual(noFilter)
  })
  it('remembers only groups of two or more as apart', () => {
    expect(toKeptApart([['a', 'b'], ['c'], 'd', [1, 2], ['e', 'f', 3]])).toEqual([
      ['a', 'b'],
      ['e', 'f'],
    ])
    expect(toKeptApart('x')).toEqual([])
  })
})
