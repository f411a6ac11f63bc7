import fc from 'fast-check'
import { expect, it } from 'vitest'
import { isStatedDate } from '../../../../shared/sources/stated-date.ts'

it('takes years, months and days of the calendar and nothing else', () => {
  for (const date of ['2024', '2024-02', '2024-02-29', '0001-12-31']) expect(isStatedDate(date)).toBe(true)
  for (const none of [
    '',
    '24',
    '2023-02-29',
    '2024-13',
    '2024-00',
    '2024-04-31',
    '2024-5-1',
    ' 2024',
    '2024-05-17T10:00',
  ])
    expect(isStatedDate(none)).toBe(false)
})

it('takes every day that there is', () => {
  const day = fc.date({ min: new Date('1000-01-01'), max: new Date('3000-01-01'), noInvalidDate: true })
  fc.assert(fc.property(day, (date) => isStatedDate(date.toISOString().slice(0, 10))))
})
