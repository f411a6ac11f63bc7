import { expect, test } from 'vitest'
import { whenOf } from '../../../../renderer/find/words.ts'
import type { Moment } from '../../../../shared/lab/moment.ts'

test('a time is told by the clock that it was written by, with its offset where that is another than here', () => {
  const winter = '2026-01-14T23:31:00.000+01:00' as Moment
  const summer = '2026-07-14T23:31:00.000+02:00' as Moment
  const here = (ms: number): number => (new Date(ms).getUTCMonth() === 0 ? 60 : 120)
  expect([winter, summer].map((moment) => whenOf(moment, here))).toEqual([
    '14 Jan 2026, 23:31',
    '14 Jul 2026, 23:31',
  ])
  expect([winter, summer].map((moment) => whenOf(moment, () => 60))).toEqual([
    '14 Jan 2026, 23:31',
    '14 Jul 2026, 23:31 UTC+02:00',
  ])
  expect(whenOf(null, here)).toBe('')
})
