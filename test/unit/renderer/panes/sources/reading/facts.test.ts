import { describe, expect, it } from 'vitest'
import { datedWords, factsLine, folderPath } from '../../../../../../renderer/panes/sources/reading/facts.ts'
import type { Folder, Source } from '../../../../../../shared/lab/model.ts'
import type { Moment } from '../../../../../../shared/lab/moment.ts'

const moment = (text: string) => text as Moment

describe('facts', () => {
  it('say what it is, how it came and when the browser saved it', () => {
    const source = { kind: 'page', wayIn: 'typed', added: moment('2026-01-01T00:00:00.000+01:00') } as Source
    const capture = {
      taken: moment('2026-11-14T18:31:00.000+01:00'),
      wayIn: 'dropped',
      saved: moment('2026-11-12T08:00:00.000+01:00'),
    } as const
    expect(factsLine(source, capture)).toBe(
      'Page, dropped, 14 Nov 2026, 18:31, saved by the browser on 12 Nov 2026',
    )
    expect(factsLine({ ...source, kind: 'link' }, null)).toBe('Link, added by hand, 1 Jan 2026, 00:00')
  })

  it('name a folder with those around it, and end in a circle', () => {
    const folders = new Map(
      [
        { id: 'a', name: 'Rack', parent: 'b' },
        { id: 'b', name: 'Dome', parent: null },
        { id: 'c', name: 'Ring', parent: 'c' },
      ].map((folder) => [folder.id, folder as unknown as Folder]),
    )
    expect(folderPath(folders, 'a')).toBe('Dome / Rack')
    expect(folderPath(folders, 'c')).toBe('Ring')
    expect(folderPath(folders, 'gone')).toBe('')
  })

  it.each([
    ['2026', '2026'],
    ['2026-02', 'Feb 2026'],
    ['2026-02-11', '11 Feb 2026'],
    ['2026-02-11T10:00:00Z', '11 Feb 2026'],
    ['spring', 'spring'],
  ])('say %s as %s', (dated, words) => {
    expect(datedWords(dated)).toBe(words)
  })
})
