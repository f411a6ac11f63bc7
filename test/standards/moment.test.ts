import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { instantOf, readMoment } from '../../shared/lab/moment.ts'

/** JSON-Schema-Test-Suite (MIT), draft2020-12, optional/format/date-time.json: RFC 3339 date-times, good and bad. */
const file = join(
  process.env.STANDARDS_DIR ?? join(process.cwd(), '../shared/standards'),
  'rfc3339/date-time.json',
)
interface Case {
  readonly description: string
  readonly data: unknown
  readonly valid: boolean
}
const suites = existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as { tests: Case[] }[]) : []
const cases = suites.flatMap(({ tests }) => tests).filter(({ data }) => typeof data === 'string')

describe('moments against the JSON Schema test suite', () => {
  it.skipIf(cases.length === 0)('meet the strings of rfc3339/date-time.json', () => {
    expect(cases.length).toBeGreaterThan(25)
  })

  it.each(cases)('$description: $data', ({ data, valid }) => {
    expect(readMoment(data as string) !== undefined).toBe(valid)
  })
})

describe('moments against the examples of RFC 3339 §5.8', () => {
  it.each([
    ['1985-04-12T23:20:50.52Z', Date.UTC(1985, 3, 12, 23, 20, 50, 520), '1985-04-12T23:20:50.520+00:00'],
    ['1996-12-19T16:39:57-08:00', Date.UTC(1996, 11, 20, 0, 39, 57), '1996-12-19T16:39:57.000-08:00'],
    // Two leap seconds: read as the last millisecond before, since ECMAScript has none.
    ['1990-12-31T23:59:60Z', Date.UTC(1990, 11, 31, 23, 59, 59, 999), '1990-12-31T23:59:59.999+00:00'],
    ['1990-12-31T15:59:60-08:00', Date.UTC(1990, 11, 31, 23, 59, 59, 999), '1990-12-31T15:59:59.999-08:00'],
    ['1937-01-01T12:00:27.87+00:20', Date.UTC(1937, 0, 1, 11, 40, 27, 870), '1937-01-01T12:00:27.870+00:20'],
  ])('%s', (text, ms, stored) => {
    const moment = readMoment(text)
    expect(moment).toBe(stored)
    expect(instantOf(moment!)).toBe(ms)
  })
})
