import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { maybePicture } from '../../../../shared/intake/picture.ts'
import { toBase64 } from '../../../../shared/intake/pictures.ts'
import { gif, jpeg, png, webp } from './pictures.ts'

describe('a picture', () => {
  test.each([
    ['png', png],
    ['gif', gif],
    ['jpeg', jpeg],
    ['webp', webp.extended],
    ['webp', webp.lossless],
    ['webp', webp.lossy],
  ])('is known as %s by its bytes, with its size', (format, write) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 16383 }), fc.integer({ min: 1, max: 16383 }), (width, height) => {
        expect(maybePicture(write(width, height))).toEqual({
          format,
          mediaType: `image/${format}`,
          width,
          height,
        })
      }),
      { numRuns: 30 },
    )
  })
  test('that is cut off, empty or something else is none', () => {
    for (const bytes of [png(3, 3), gif(3, 3), jpeg(3, 3), webp.lossy(3, 3)])
      for (let end = 0; end < 10; end += 1) expect(maybePicture(bytes.subarray(0, end))).toBeUndefined()
    expect(maybePicture(png(0, 3))).toBeUndefined()
    expect(
      maybePicture(new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>')),
    ).toBeUndefined()
  })
  test('never makes the reader fail or read beyond its end', () => {
    const starts = [png(9, 9), gif(9, 9), jpeg(9, 9), webp.lossless(9, 9)]
    fc.assert(
      fc.property(
        fc.constantFrom(...starts),
        fc.nat(12),
        fc.uint8Array({ maxLength: 60 }),
        (start, keep, rest) => {
          const padded = Uint8Array.from([7, ...start.subarray(0, keep), ...rest])
          expect(() => maybePicture(padded.subarray(1))).not.toThrow()
        },
      ),
    )
  })
  test('stands in base64 as RFC 4648 writes it', () => {
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'))
      }),
    )
  })
})
