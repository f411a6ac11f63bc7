import { describe, expect, it } from 'vitest'
import { itemsOf, rowAfterKey, rowAfterTyping } from '../../../../../../renderer/panes/sources/list/items.ts'
import {
  chipsOf,
  countWords,
  factsWords,
  groupWords,
  sameWords,
  whereWords,
} from '../../../../../../renderer/panes/sources/list/words.ts'
import type { Project } from '../../../../../../shared/lab/model.ts'
import { findSameSources } from '../../../../../../shared/sources/duplicates.ts'
import { toSourceFacts } from '../../../../../../shared/sources/facts.ts'
import { noFilter, type SourceFilter } from '../../../../../../shared/sources/filter.ts'
import { toFolderTree } from '../../../../../../shared/sources/folder-tree.ts'
import { factsOf, folder, head, projects as ids, source, tablesOf } from '../../../../shared/sources/scene.ts'

const project = (at: number, title: string): Project => {
  return { id: ids[at]!, title, aim: '', status: 'planned', created: source(1).added, tags: [], folder: null }
}
const projects = [project(0, 'Time'), project(1, 'Dome'), project(2, 'Mast')]
const plain = (text: string | null) => text?.replaceAll('\u00a0', ' ')

describe('the words of a row', () => {
  it('say kind, day, date, captures and what was carried, and break at commas only', () => {
    const [first, second] = [source(1, { kind: 'pdf', dated: '2024-05' }), source(2, { setAside: true })]
    const heads = [head(1, first), head(2, first)]
    const rows = toSourceFacts(tablesOf([first, second], heads, [], { [first.id]: 3 }))
    const words = rows.map(factsWords)
    expect(words.map(plain)).toEqual([
      'PDF, added 14 Nov 2026, dated May 2024, 2 captures, 3 carried',
      'Text, added 14 Nov 2026, set aside',
    ])
    expect(words[0]!.split(/,? /u)).toHaveLength(5)
  })

  it('say where a source is used that this project does not use', () => {
    const rows = factsOf(
      source(1, { projects: [ids[0]!, ids[1]!] }),
      source(2, { projects: [ids[1]!] }),
      source(3, { projects: [ids[1]!, ids[2]!] }),
      source(4),
    )
    expect(rows.map((row) => whereWords(row, ids[0], projects))).toEqual([
      null,
      'In Dome',
      'In Dome and 1 more',
      'In no project',
    ])
  })

  it('say what a source is the same as, and why', () => {
    const address = 'https://a.example.org/'
    const all = [
      source(1, { title: 'Fans', address }),
      source(2, { title: 'Noise', address }),
      source(3, { title: 'File' }),
    ]
    const rows = toSourceFacts(tablesOf(all, [head(1, all[1]!, 'x'), head(2, all[2]!, 'x')]))
    const [group] = findSameSources(rows)
    expect(rows.map((row) => sameWords(row, group!))).toEqual([
      'Same address as “Noise”',
      'Same address as “Fans”',
      'Same content as “Noise”',
    ])
    expect(groupWords(group!)).toBe('3 sources: same address or content')
    const [more] = findSameSources(factsOf(...[1, 2, 3].map((at) => source(at, { address }))))
    expect(sameWords(more!.members[0]!, more!)).toBe('Same address as 2 others')
  })

  it('count in words', () => {
    expect([countWords(1), countWords(12), countWords(1234)]).toEqual([
      '1 source',
      '12 sources',
      '1,234 sources',
    ])
  })
})

describe('the chips of a filter', () => {
  const tree = toFolderTree([folder(0, 'Rack'), folder(1, 'Disks', 0)])
  const filter: SourceFilter = {
    ...noFilter,
    words: 'mast',
    scope: 'lab',
    tags: ['raid', 'zfs'],
    folder: folder(1, '').id,
    project: ids[1]!,
    kinds: ['pdf'],
    from: '2026-11-01',
    to: '2026-11-14',
    flags: ['unused'],
  }
  const chips = chipsOf(filter, tree.pathOf, projects)

  it('name every condition that is set', () => {
    expect(chips.map(({ sort, word }) => `${sort}: ${word}`)).toEqual([
      'Tag: raid',
      'Tag: zfs',
      'Folder: Rack / Disks',
      'Project: Dome',
      'Kind: PDF',
      'Added: from 1 Nov 2026',
      'Added: until 14 Nov 2026',
      'Only: Unused',
    ])
  })

  it('take off one condition each, and all of them leave words and scope', () => {
    for (const { without } of chips)
      expect(chipsOf({ ...filter, ...without }, tree.pathOf, projects)).toHaveLength(chips.length - 1)
    let left = filter
    for (let [first] = chips; first; [first] = chipsOf(left, tree.pathOf, projects))
      left = { ...left, ...first.without }
    expect(left).toEqual({ ...noFilter, words: 'mast', scope: 'lab' })
  })
})

describe('the lines of the list', () => {
  const address = 'https://a.example.org/'
  const rows = factsOf(source(1, { address }), source(2), source(3, { address }))
  const same = new Map(
    findSameSources(rows).flatMap((group) => group.members.map((row) => [row.source.id, group])),
  )

  it('are the rows in their order, and stand together under a head where the same ones are asked for', () => {
    const keys = (filter: SourceFilter) =>
      itemsOf(rows, filter, same).map((item) =>
        item.kind === 'row' ? `${item.place} ${item.row.source.title}` : 'head',
      )
    expect(keys(noFilter)).toEqual(['1 Source 1', '2 Source 2', '3 Source 3'])
    expect(keys({ ...noFilter, flags: ['same as another'] })).toEqual([
      'head',
      '1 Source 1',
      '2 Source 3',
      '3 Source 2',
    ])
  })

  it('are walked by keys, in a ring but for a page', () => {
    const after = (key: string, at: number) => rowAfterKey(key, at, 10, 4)
    expect([after('ArrowDown', 9), after('ArrowUp', 0), after('Home', 5), after('End', 5)]).toEqual([
      0, 9, 0, 9,
    ])
    expect([after('PageDown', 3), after('PageDown', 8), after('PageUp', 3)]).toEqual([7, 9, 0])
    expect([after('x', 3), rowAfterKey('End', -1, 0, 4)]).toEqual([null, null])
  })

  it('are found by how their titles begin', () => {
    const titled = factsOf(...['Fans', 'Disks', 'Dome'].map((title, at) => source(at, { title })))
    expect(rowAfterTyping('d', titled, 0)).toBe(1)
    expect(rowAfterTyping('d', titled, 1)).toBe(2)
    expect(rowAfterTyping('do', titled, 1)).toBe(2)
    expect(rowAfterTyping('z', titled, 0)).toBeNull()
  })
})
