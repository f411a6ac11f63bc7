import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { emptyIndex, withDocuments } from '../../../../shared/find/index/lab-index.ts'
import { search } from '../../../../shared/find/index/search.ts'
import type { TakenQuery } from '../../../../shared/find/index/answer.ts'
import { findExcerpt, findMarks } from '../../../../shared/find/marks.ts'
import { readQuery } from '../../../../shared/find/query/read-query.ts'
import { textDocument } from '../../../support/find.ts'

const text =
  'The disks are full: no space left on device. Café monitors /etc/ssh/sshd_config and mounting eth0; left on device space.'
const index = withDocuments(emptyIndex, {
  documents: [textDocument({ id: 'a', text })],
  removed: [],
  sequence: 1,
})

function takenOf(typed: string): TakenQuery {
  const query = readQuery(typed, { now: 0, offsetAt: () => 0, projects: [] })
  return search(index, query, { limit: 1 }).taken
}

const marked = (typed: string): string[] =>
  findMarks(takenOf(typed), text).map(({ start, end }) => text.slice(start, end))

describe('marks', () => {
  it.each([
    ['disk ', ['disks']],
    ['cafe ', ['Café']],
    ['moun', ['mounting']],
    ['mounted ', ['mounting']],
    ['montiors ', ['monitors']],
    ['sshd ', ['sshd']],
    ['/etc/ssh/sshd_config ', ['/etc/ssh/sshd_config']],
    ['/etc/ssh ', ['/etc/ssh']],
    ['"left on device" ', ['left on device', 'left on device']],
    ['"no space left" ', ['no space left']],
    ['"space device" ', []],
    ['nothing ', []],
  ])('of %s are the words that were meant', (typed, words) => {
    expect(marked(typed)).toEqual(words)
  })

  it('stand in text order, apart, and within the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 60 }),
        fc.string({ maxLength: 10 }),
        (some, typed) => {
          let last = 0
          for (const { start, end } of findMarks(takenOf(typed), some)) {
            expect(start).toBeGreaterThanOrEqual(last)
            expect(end).toBeGreaterThan(start)
            expect(end).toBeLessThanOrEqual(some.length)
            last = end
          }
        },
      ),
    )
  })
})

describe('an excerpt', () => {
  const long = `${'Nothing to see here. '.repeat(40)}The disk of the mast was full.\n${'More of it. '.repeat(40)}disk`

  it('shows where most of the different words stand', () => {
    const { start, end, marks } = findExcerpt(takenOf('full disk '), long, 120)
    expect(long.slice(start, end)).toContain('The disk of the mast was full.')
    expect(marks.map((mark) => long.slice(mark.start, mark.end))).toEqual(['disk', 'full'])
    expect(end - start).toBeLessThanOrEqual(120)
  })

  it('of a text without the words is its beginning', () => {
    expect(findExcerpt(takenOf('zebra '), 'short text', 100)).toEqual({ start: 0, end: 10, marks: [] })
  })
})
