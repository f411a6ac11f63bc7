import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import { countFacets } from '../../../../shared/sources/counts.ts'
import { toSourceFacts, type SourceFacts, type SourceTables } from '../../../../shared/sources/facts.ts'
import {
  filterFacts,
  isFiltering,
  noFilter,
  sourceFlags,
  type FilterGround,
  type SourceFilter,
} from '../../../../shared/sources/filter.ts'
import { sourceKinds } from '../../../../shared/lab/model.ts'
import { anyLooseFilter, anyTables, factsOf, groundOf, projects, source, tablesOf } from './scene.ts'

const ground = groundOf(tablesOf([]))
const titles = (rows: readonly SourceFacts[], filter: Partial<SourceFilter>) =>
  filterFacts(rows, { ...noFilter, scope: 'lab', ...filter }, ground).map(({ source: { title } }) => title)

describe('filtering sources', () => {
  const rows = factsOf(
    source(1, { title: 'Überspannung am Mast', address: 'https://docs.example.org/surge' }),
    source(2, { title: 'Surge protection', kind: 'page' }),
  )

  it('takes every word, in any case and order, with or without accents', () => {
    expect(titles(rows, { words: 'SURGE' })).toEqual(['Überspannung am Mast', 'Surge protection'])
    expect(titles(rows, { words: 'page surge' })).toEqual(['Surge protection'])
    expect(titles(rows, { words: 'uberspannung' })).toEqual(['Überspannung am Mast'])
    expect(titles(rows, { words: 'surge gauge' })).toEqual([])
    expect(titles(rows, { words: ' \t' })).toHaveLength(2)
  })

  it('goes by the day on which a source was added, where it was added', () => {
    const [east, west] = ['2026-11-15T00:10:00.000+13:00', '2026-11-14T23:50:00.000-09:30']
    const added = factsOf(
      source(1, { title: 'east', added: east as never }),
      source(2, { title: 'west', added: west as never }),
    )
    expect(titles(added, { from: '2026-11-15' })).toEqual(['east'])
    expect(titles(added, { to: '2026-11-14' })).toEqual(['west'])
    expect(titles(added, { from: '2026-11-14', to: '2026-11-15' })).toEqual(['east', 'west'])
  })

  it('shows what is set aside only where that is asked for, and then nothing else', () => {
    const both = factsOf(source(1, { title: 'away', setAside: true }), source(2, { title: 'here' }))
    expect(titles(both, {})).toEqual(['here'])
    expect(titles(both, { flags: ['set aside'] })).toEqual(['away'])
  })

  it('lets through what a naive reading of the filter does', () => {
    fc.assert(
      fc.property(anyTables, anyLooseFilter, (tables, filter) => {
        const { rows: all, ground: on } = listOf(tables)
        expect(filterFacts(all, filter, on)).toEqual(
          all.filter((row) => isNaivelyShown(row, filter, tables, on)),
        )
      }),
      { numRuns: 500 },
    )
  })

  it('says that it filters exactly where something beside the scope is set', () => {
    fc.assert(
      fc.property(anyLooseFilter, ({ words, ...filter }) => {
        const bare = JSON.stringify({ ...noFilter, scope: filter.scope })
        const isBare = JSON.stringify({ ...noFilter, ...filter, words: words.trim() }) === bare
        expect(isFiltering({ ...filter, words })).toBe(!isBare)
      }),
    )
  })
})

describe('counting with one more condition', () => {
  it('counts what the list would then show', () => {
    fc.assert(
      fc.property(anyTables, anyLooseFilter, (tables, filter) => {
        const { rows, ground: on } = listOf(tables)
        const counts = countFacets(rows, filter, on)
        const shownWith = (more: Partial<SourceFilter>) =>
          filterFacts(rows, { ...filter, ...more }, on).length
        expect(counts.shown).toBe(shownWith({}))
        expect(counts.inProject).toBe(shownWith({ scope: 'project' }))
        expect(counts.inLab).toBe(shownWith({ scope: 'lab' }))
        const tags = new Set(rows.flatMap(({ source: { tags } }) => tags))
        for (const tag of tags)
          expect(counts.tags.get(tag) ?? 0).toBe(shownWith({ tags: [...filter.tags, tag] }))
        for (const flag of sourceFlags)
          expect(counts.flags.get(flag) ?? 0).toBe(shownWith({ flags: [...filter.flags, flag] }))
        for (const id of tables.folders.keys())
          expect(counts.folders.get(id as FolderId) ?? 0).toBe(shownWith({ folder: id as FolderId }))
        for (const project of [...projects, 'none'] as const)
          expect(counts.projects.get(project) ?? 0).toBe(shownWith({ project }))
        for (const kind of sourceKinds) expect(counts.kinds.get(kind) ?? 0).toBe(shownWith({ kinds: [kind] }))
        expect([...counts.tags.values(), ...counts.folders.values()]).not.toContain(0)
      }),
      { numRuns: 500 },
    )
  })
})

function listOf(tables: SourceTables): { rows: SourceFacts[]; ground: FilterGround } {
  const rows = toSourceFacts(tables)
  const same = new Set(rows.filter((_, at) => at % 3 === 0).map(({ source: { id } }) => id))
  return { rows, ground: groundOf(tables, same) }
}

function isNaivelyShown(
  row: SourceFacts,
  filter: SourceFilter,
  { folders }: SourceTables,
  { open, tree, same }: FilterGround,
): boolean {
  const { source: one } = row
  const holds: Record<SourceFilter['flags'][number], boolean> = {
    pinned: one.pinned,
    unused: row.uses === 0,
    'link without text': row.captures === 0,
    'same as another': same.has(one.id),
    'set aside': one.setAside,
  }
  const isWithin = (id: FolderId): boolean => tree.upFrom(id).includes(filter.folder!)
  const day = one.added.split('T')[0]!
  return [
    filter.words
      .trim()
      .split(/\s+/u)
      .every((word) => row.words.includes(word.toLowerCase())),
    filter.scope === 'lab' || one.projects.some((id) => id === open),
    filter.tags.every((tag) => one.tags.some((own) => own === tag)),
    filter.folder === null || (folders.has(filter.folder) && one.folders.some(isWithin)),
    filter.project === null ||
      (filter.project === 'none' ? one.projects.length === 0 : one.projects.includes(filter.project)),
    filter.kinds.length === 0 || filter.kinds.some((kind) => kind === one.kind),
    filter.from === null || day >= filter.from,
    filter.to === null || day <= filter.to,
    filter.flags.every((flag) => holds[flag]),
    !one.setAside || filter.flags.includes('set aside'),
  ].every(Boolean)
}
