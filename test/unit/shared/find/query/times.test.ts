import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Calendar } from '../../../../../shared/find/query/calendar.ts'
import { findTime } from '../../../../../shared/find/query/times.ts'

/** Thursday 14 August 2025, 02:00 at UTC+2. */
const night = new Calendar(Date.parse('2025-08-14T00:00:00Z'), () => 120)

/** A span as local dates and hours, or what is open. */
function spanOf(typed: string, isAsked = false, calendar = night): string | null {
  const time = findTime(typed.split(' '), calendar, isAsked)
  if (!time) return null
  const { from, to } = time.span
  const local = (ms: number | null): string =>
    ms === null ? '…' : new Date(ms + 120 * 60_000).toISOString().slice(0, 16).replace('T00:00', '')
  return `${local(from)} ${local(to)} ${time.words}`
}

describe('times in words', () => {
  it.each([
    ['today', '2025-08-14 2025-08-15 1'],
    ['yesterday', '2025-08-13 2025-08-14 1'],
    ['last night', '2025-08-13T18:00 2025-08-14T06:00 2'],
    ['last week', '2025-08-04 2025-08-11 2'],
    ['this week', '2025-08-11 2025-08-18 2'],
    ['last month', '2025-07-01 2025-08-01 2'],
    ['last year', '2024-01-01 2025-01-01 2'],
    ['last March', '2025-03-01 2025-04-01 2'],
    ['last August', '2024-08-01 2024-09-01 2'],
    ['last October', '2024-10-01 2024-11-01 2'],
    ['last Monday', '2025-08-11 2025-08-12 2'],
    ['last Thursday', '2025-08-07 2025-08-08 2'],
    ['last 3 days', '2025-08-11 … 3'],
    ['the past two weeks', '2025-07-28 … 4'],
    ['2 weeks ago', '2025-07-28 2025-08-04 3'],
    ['a month ago', '2025-07-01 2025-08-01 3'],
    ['in 2024', '2024-01-01 2025-01-01 2'],
    ['in March', '2025-03-01 2025-04-01 2'],
    ['in October', '2024-10-01 2024-11-01 2'],
    ['March 2024', '2024-03-01 2024-04-01 2'],
    ['5 March 2024', '2024-03-05 2024-03-06 3'],
    ['March 5th, 2024', '2024-03-05 2024-03-06 3'],
    ['on 2024-02-29', '2024-02-29 2024-03-01 2'],
    ['since May', '2025-05-01 … 2'],
    ['after last week', '2025-08-11 … 3'],
    ['before 3 May 2024', '… 2024-05-03 4'],
    ['until 2023', '… 2024-01-01 2'],
    ['from 1 May 2024 to 5 May 2024', '2024-05-01 2024-05-06 8'],
    ['between March and May', '2025-03-01 2025-06-01 4'],
    ['since last March disk', '2025-03-01 … 3'],
  ])('%s is a span', (typed, span) => {
    expect(spanOf(typed)).toBe(span)
  })

  it.each([
    'may fail',
    'sat on disk',
    'second disk',
    'mar',
    '2024',
    'Monday',
    'last line',
    'since boot',
    'in use',
    'on 2023-02-29',
    '31 February 2024',
    '10.0.2.0/24',
    '12:30',
    'before mounting',
  ])('%s is none', (typed) => {
    expect(spanOf(typed)).toBeNull()
  })

  it.each([
    ['2024', '2024-01-01 2025-01-01 1'],
    ['March', '2025-03-01 2025-04-01 1'],
    ['Monday', '2025-08-11 2025-08-12 1'],
    ['2024-03', '2024-03-01 2024-04-01 1'],
    ['2024-03-05', '2024-03-05 2024-03-06 1'],
  ])('%s is one where a time is asked for', (typed, span) => {
    expect(spanOf(typed, true)).toBe(span)
  })

  it('begin and end at local midnight on both sides of a change of the clocks', () => {
    // Central European time: UTC+2 in summer from 2025-03-30T01:00Z, UTC+1 before.
    const offsetAt = (ms: number): number => (ms >= Date.parse('2025-03-30T01:00:00Z') ? 120 : 60)
    const calendar = new Calendar(Date.parse('2025-04-02T10:00:00Z'), offsetAt)
    const { span } = findTime(['last', 'March'], calendar, false)!
    expect([span.from, span.to].map((ms) => new Date(ms!).toISOString())).toEqual([
      '2025-02-28T23:00:00.000Z',
      '2025-03-31T22:00:00.000Z',
    ])
  })

  it('are spans that end behind their beginning, whatever is typed', () => {
    const some =
      'last this in on since before 2024 march may monday 3 5 days week ago today the from to and between 2024-03-05'
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...some.split(' ')), { minLength: 1, maxLength: 8 }), (words) => {
        const time = findTime(words, night, true)
        if (!time) return
        expect(time.words).toBeGreaterThan(0)
        expect(time.words).toBeLessThanOrEqual(words.length)
      }),
    )
  })
})
