import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { aheadBy, momentTaken, wordsOfAhead } from '../../../../../shared/journal/pictures/clock.ts'

const night = Date.UTC(2026, 10, 24, 0, 5, 0)

describe('a camera’s clock', () => {
  test('a clock that was ahead took its pictures earlier than it says, into the day before', () => {
    expect(momentTaken({ local: night, offset: 60 }, 600, () => 0)).toBe('2026-11-23T23:55:00.000+01:00')
    expect(momentTaken({ local: night, offset: 60 }, -600, () => 0)).toBe('2026-11-24T00:15:00.000+01:00')
  })

  test('a camera that names no offset has the one that held here at the corrected time', () => {
    // Summer time ends at 03:00 on 25 October; the camera showed the hour behind it by mistake.
    const offsetAt = (local: number): number => (local < Date.UTC(2026, 9, 25, 3) ? 120 : 60)
    const camera = { local: Date.UTC(2026, 9, 25, 3, 30), offset: null }
    expect(momentTaken(camera, 0, offsetAt)).toBe('2026-10-25T03:30:00.000+01:00')
    expect(momentTaken(camera, 3600, offsetAt)).toBe('2026-10-25T02:30:00.000+02:00')
  })

  test('the true time of one picture sets all of them right', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -400_000_000, max: 400_000_000 }),
        fc.integer({ min: 0, max: 999 }),
        (ahead, millis) => {
          const camera = { local: night + millis, offset: 0 }
          const found = aheadBy(camera, night - ahead * 1000)
          expect(found).toBe(ahead)
          expect(Date.parse(momentTaken(camera, found, () => 0)!)).toBe(night - ahead * 1000 + millis)
        },
      ),
    )
  })

  test('a difference is said in words', () => {
    expect([0, 5, -65, 4325, -90_000].map(wordsOfAhead)).toEqual([
      'right',
      '5 s ahead',
      '1 min 5 s behind',
      '1 h 12 min 5 s ahead',
      '1 day 1 h behind',
    ])
  })

  test('a time outside the years that can be written is none', () => {
    expect(momentTaken({ local: Date.UTC(9999, 11, 31, 23), offset: 0 }, -7200, () => 0)).toBeUndefined()
  })
})
