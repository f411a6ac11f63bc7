import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FindQuery, QuerySurroundings } from '../../../../../shared/find/query/query.ts'
import { readQuery } from '../../../../../shared/find/query/read-query.ts'

const around: QuerySurroundings = {
  now: Date.parse('2025-08-14T00:00:00Z'),
  offsetAt: () => 0,
  projects: [
    { id: 'p1', title: 'Weather logger' },
    { id: 'p2', title: 'Weather mast' },
    { id: 'p3', title: 'The rack' },
  ],
  isHeld: (form) => ['-name', '-rf'].includes(form),
}
const read = (typed: string, more: Partial<QuerySurroundings> = {}): FindQuery =>
  readQuery(typed, { ...around, ...more })
const wordsOf = (typed: string): string[] => read(typed).words.map(({ written }) => written)
const saysOf = (typed: string): unknown[] =>
  read(typed).filters.map((filter) => ({
    ...filter,
    range: typed.slice(filter.range.start, filter.range.end),
  }))

describe('a query', () => {
  it('is words, of which the last may still be being typed', () => {
    expect(read('disk ful').words).toEqual([
      { written: 'disk', isBeginning: false, range: { start: 0, end: 4 } },
      { written: 'ful', isBeginning: true, range: { start: 5, end: 8 } },
    ])
    expect(read('disk ful ').words.map(({ isBeginning }) => isBeginning)).toEqual([false, false])
  })

  it('keeps technical words whole', () => {
    expect(
      wordsOf('mount /etc/fstab eth0 10.0.2.0/24 foo_bar.service --dry-run E212: root@gate:/srv -n'),
    ).toEqual([
      'mount',
      '/etc/fstab',
      'eth0',
      '10.0.2.0/24',
      'foo_bar.service',
      '--dry-run',
      'E212',
      'root@gate:/srv',
      '-n',
    ])
  })

  it('has exact phrases in quotes, once they are closed', () => {
    const { words, phrases } = read('disk "no space left" on')
    expect(words.map(({ written }) => written)).toEqual(['disk', 'on'])
    expect(phrases).toEqual([{ written: 'no space left', range: { start: 5, end: 20 } }])
    expect(read('disk "no space').phrases).toEqual([])
    expect(wordsOf('disk "no space')).toEqual(['disk', 'no', 'space'])
  })

  it('asks by is: for what was withdrawn or what stands, and for nothing else', () => {
    expect(saysOf('disk is:Withdrawn is:standing')).toEqual([
      { by: 'state', state: 'withdrawn', range: 'is:Withdrawn' },
      { by: 'state', state: 'standing', range: 'is:standing' },
    ])
    expect([saysOf('is:full'), wordsOf('is:full')]).toEqual([[], ['is:full']])
  })

  it('leaves out what stands behind a minus or not:, but for options that the lab holds', () => {
    const { words, excluded } = read('find -name core -swap not:raid -"on tape" rm -rf')
    expect(words.map(({ written }) => written)).toEqual(['find', '-name', 'core', 'rm', '-rf'])
    expect(excluded.map(({ written }) => written)).toEqual(['swap', 'raid', 'on tape'])
  })

  it('has filters by name, with the range that a chip stands for', () => {
    expect(saysOf('disk kind:fix thing:steps tag:net/dns place:"the gate" in:rack')).toEqual([
      { by: 'kind', kind: 'fix', range: 'kind:fix' },
      { by: 'thing', thing: 'step', range: 'thing:steps' },
      { by: 'tag', tag: 'net/dns', range: 'tag:net/dns' },
      { by: 'place', place: 'the gate', range: 'place:"the gate"' },
      { by: 'project', written: 'rack', projects: ['p3'], range: 'in:rack' },
    ])
    expect(wordsOf('disk kind:fix thing:steps tag:net/dns')).toEqual(['disk'])
  })

  it('finds projects by title, by its beginning, or by a part of it', () => {
    expect(saysOf('in:"weather logger"')).toMatchObject([{ projects: ['p1'] }])
    expect(saysOf('in:weather')).toMatchObject([{ projects: ['p1', 'p2'] }])
    expect(saysOf('in:mast')).toMatchObject([{ projects: ['p2'] }])
    expect(saysOf('in:nothing')).toMatchObject([{ projects: [] }])
  })

  it('searches what is no filter as it was typed', () => {
    expect(wordsOf('kind:nonsense http://wx.example.org error:42')).toEqual([
      'kind:nonsense',
      'http://wx.example.org',
      'error:42',
    ])
  })

  it('reads times among the words and behind when:', () => {
    const march = { by: 'time', span: { from: Date.parse('2025-03-01'), to: Date.parse('2025-04-01') } }
    expect(saysOf('disk last March full')).toEqual([{ ...march, range: 'last March' }])
    expect(wordsOf('disk last March full')).toEqual(['disk', 'full'])
    expect(saysOf('when:last March disk')).toEqual([{ ...march, range: 'when:last March' }])
    expect(saysOf('when:"last March" disk')).toEqual([{ ...march, range: 'when:"last March"' }])
    expect(saysOf('when:march')).toEqual([{ ...march, range: 'when:march' }])
    expect(saysOf('"last March"')).toEqual([])
  })

  it('leaves as words what the person wants as words', () => {
    const kept = read('disk last March -swap kind:fix', {
      keptAsWords: [
        { start: 5, end: 15 },
        { start: 16, end: 30 },
      ],
    })
    expect([kept.filters, kept.excluded]).toEqual([[], []])
    expect(kept.words.map(({ written }) => written)).toEqual(['disk', 'last', 'March', '-swap', 'kind:fix'])
  })

  it('can be read whatever is typed, each part where it stands', () => {
    const some = fc.constantFrom(
      'kind:',
      'in:',
      '"',
      '-',
      ' ',
      'last',
      'March',
      'disk',
      'fix',
      '/etc',
      'not:',
      'when:',
    )
    fc.assert(
      fc.property(fc.array(fc.oneof(some, fc.string({ maxLength: 3 })), { maxLength: 12 }), (parts) => {
        const typed = parts.join('')
        const { words, phrases, excluded, filters } = read(typed)
        for (const { written, range } of words) expect(typed.slice(range.start, range.end)).toBe(written)
        const ranges = [...words, ...phrases, ...excluded, ...filters].map(({ range }) => range)
        const inOrder = ranges.sort((one, other) => one.start - other.start)
        for (const [at, { start }] of inOrder.entries())
          expect(start).toBeGreaterThanOrEqual(at === 0 ? 0 : inOrder[at - 1]!.end)
      }),
    )
  })
})
