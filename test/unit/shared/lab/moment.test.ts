import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareMoments, instantOf, offsetOf, readMoment, toMoment } from '../../../../shared/lab/moment.ts'

const [first, last] = [Date.UTC(2000, 0, 1) - 2000 * 365.2425 * 86_400_000, Date.UTC(9999, 11, 30)]
const instants = fc.integer({ min: Math.ceil(first) + 86_400_000 * 3, max: last })
const offsets = fc.integer({ min: -1439, max: 1439 })

describe('moments', () => {
  it('give back the instant and the offset that they were made of, and read as themselves', () => {
    fc.assert(
      fc.property(instants, offsets, (ms, offset) => {
        const moment = toMoment(ms, offset)
        expect(moment).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d$/)
        expect(instantOf(moment)).toBe(ms)
        expect(offsetOf(moment)).toBe(offset)
        expect(readMoment(moment)).toBe(moment)
      }),
      { numRuns: 500 },
    )
  })

  it('are ordered by instant, whatever their offsets', () => {
    fc.assert(
      fc.property(instants, instants, offsets, offsets, (a, b, x, y) => {
        expect(Math.sign(compareMoments(toMoment(a, x), toMoment(b, y)))).toBe(Math.sign(a - b))
      }),
    )
  })

  it('cut fractions of a millisecond off and never round up into another second or day', () => {
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 9 }), { minLength: 1, maxLength: 20 }), (digits) => {
        const fraction = digits.join('')
        expect(readMoment(`2026-12-31T23:59:59.${fraction}Z`)).toBe(
          `2026-12-31T23:59:59.${fraction.slice(0, 3).padEnd(3, '0')}+00:00`,
        )
      }),
    )
    expect(readMoment('2026-12-31T23:59:59.999999999999Z')).toBe('2026-12-31T23:59:59.999+00:00')
  })

  it('are refused where RFC 3339 cannot write them', () => {
    expect(() => toMoment(Date.UTC(10_000, 0, 1), 0)).toThrow(RangeError)
    expect(() => toMoment(Date.UTC(9999, 11, 31, 23, 59), 60)).toThrow(RangeError)
    expect(() => toMoment(0, 1440)).toThrow(RangeError)
    expect(() => toMoment(0, 0.5)).toThrow(RangeError)
    expect(() => toMoment(Number.NaN, 0)).toThrow(RangeError)
  })
})
