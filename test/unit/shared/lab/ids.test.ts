import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createIdMaker, isId, millisecondsOfId, type LabId } from '../../../../shared/lab/ids.ts'

const ofBytes = (byte: number) => (count: number) => new Uint8Array(count).fill(byte)

describe('ids of one maker', () => {
  it('increase strictly, 100,000 of them within one millisecond, whatever the random bytes', () => {
    for (const byte of [0, 255]) {
      const maker = createIdMaker(() => 1_700_000_000_000, ofBytes(byte))
      let last = ''
      let isStrict = true
      for (let i = 0; i < 100_000; i++) {
        const id = maker.make<LabId>()
        isStrict &&= id > last
        last = id
      }
      expect(isStrict).toBe(true)
      expect(millisecondsOfId(last as LabId)).toBe(1_700_000_000_000)
    }
  })

  it('increase strictly over any clock, also one that steps back, and never tell less than the time', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat({ max: 2 ** 48 - 2 }), { minLength: 2, maxLength: 50 }),
        fc.infiniteStream(fc.nat({ max: 255 })),
        (times, bytes) => {
          let at = 0
          const randomBytes = (count: number) =>
            Uint8Array.from({ length: count }, () => bytes.next().value as number)
          const maker = createIdMaker(() => times[at]!, randomBytes)
          const ids = times.map((_, i) => {
            at = i
            return maker.make<LabId>()
          })
          ids.forEach((id, i) => {
            expect(isId(id)).toBe(true)
            expect(millisecondsOfId(id)).toBe(Math.max(...times.slice(0, i + 1)))
            if (i > 0) expect(id > ids[i - 1]!).toBe(true)
          })
        },
      ),
      { numRuns: 200 },
    )
  })
})
