import { describe, expect, it } from 'vitest'
import { findDifference } from '../../../../shared/archive/sameRecords.ts'

const bytes = (...values: number[]): Uint8Array => new Uint8Array(values)

describe('two dumps', () => {
  it('are the same with equal records, whatever the order of fields and fields without a value', () => {
    expect(
      findDifference(
        { entries: [{ id: 'a', n: 1, raw: bytes(1, 2), gone: undefined }], marks: [] },
        { entries: [{ raw: bytes(1, 2), n: 1, id: 'a' }] },
      ),
    ).toBe(null)
  })

  it.each([
    [{ a: 1 }, { a: 2 }],
    [{ a: 1 }, {}],
    [{ a: bytes(1, 2) }, { a: bytes(1, 3) }],
    [{ a: bytes(1) }, { a: bytes(1, 2) }],
    [{ a: bytes(1) }, { a: [1] }],
    [{ a: ['x'] }, { a: { 0: 'x' } }],
    [{ a: null }, { a: {} }],
    [{ a: new Date(1) }, { a: new Date(1) }],
    [{ a: new Map([[1, 2]]) }, { a: {} }],
    [{ a: NaN }, { a: null }],
    [{ a: new Float32Array([1]) }, { a: { 0: 1 } }],
  ])('differ: %o and %o', (one, other) => {
    expect(findDifference({ settings: [one] }, { settings: [other] })).toBe('settings')
  })

  it('differ where one has more records, or another order', () => {
    expect(findDifference({ a: [1, 2] }, { a: [1] })).toBe('a')
    expect(findDifference({ a: [1, 2] }, { a: [2, 1] })).toBe('a')
    expect(findDifference({ a: [], b: [1] }, { a: [] })).toBe('b')
  })
})
