import { describe, expect, test } from 'vitest'
import { maybePicture } from '../../../../../shared/intake/picture.ts'
import { cameraSays } from '../../../../../shared/journal/pictures/camera.ts'
import { jpegParts } from '../../../../../shared/journal/pictures/jpeg.ts'
import { withoutPlace } from '../../../../../shared/journal/pictures/without-place.ts'
import { toPhoto } from '../../../../support/pictures/photo.ts'

const says = { taken: '2026:11:24 21:05:09', make: 'Meridian', where: [47.5, 11.25] } as const
const latin1 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1')
const plain = toPhoto({})
const segment = (marker: number, words: string): Uint8Array =>
  Uint8Array.from([0xff, marker, 0, words.length + 2, ...Buffer.from(words, 'latin1')])
const behindStart = (photo: Uint8Array, ...parts: readonly Uint8Array[]): Uint8Array =>
  Uint8Array.from(Buffer.concat([photo.subarray(0, 2), ...parts, photo.subarray(2)]))

describe('leaving out where a picture was taken', () => {
  test('of a JPEG all is left out that the camera said, and every other byte stays', () => {
    const photo = toPhoto(says)
    expect(cameraSays(photo).saysWhere).toBe(true)
    expect(withoutPlace(photo)).toEqual(plain)
  })

  test('how the picture is to be turned stays, and nothing else of the camera’s data', () => {
    for (const order of ['II', 'MM'] as const) {
      const kept = withoutPlace(toPhoto({ ...says, order, orientation: 8 }))!
      expect(cameraSays(kept)).toEqual({ taken: null, camera: '', orientation: 8, saysWhere: false })
      expect(latin1(kept)).not.toContain('Meridian')
      expect(kept.length).toBe(plain.length + 36)
      expect(withoutPlace(kept)).toEqual(kept)
    }
  })

  test('words of programs, comments, and pictures behind the end go too; colours stay', () => {
    const photo = behindStart(
      toPhoto(says),
      segment(0xe1, 'http://ns.adobe.com/xap/1.0/\0<where/>'),
      segment(0xed, 'Photoshop 3.0\0where'),
      segment(0xe2, 'MPF\0where'),
      segment(0xfe, 'taken where'),
      segment(0xe2, 'ICC_PROFILE\0\u0001\u0001colours'),
    )
    const kept = withoutPlace(Uint8Array.from(Buffer.concat([photo, toPhoto(says)])))!
    expect(latin1(kept)).not.toContain('where')
    expect(latin1(kept)).toContain('colours')
    expect(kept.length).toBe(plain.length + 25)
    expect(jpegParts(kept)!.at(-1)).toMatchObject({ marker: 0xd9, end: kept.length })
  })

  test('the parts of a JPEG follow one another without a gap', () => {
    const parts = jpegParts(toPhoto(says))!
    parts.forEach(({ start }, at) => expect(start).toBe(at === 0 ? 0 : parts[at - 1]!.end))
  })

  test('a JPEG whose parts cannot be told apart is not given out as one without a place', () => {
    const broken = toPhoto(says)
    broken[4] = 0xff
    expect(withoutPlace(broken)).toBeNull()
    expect(withoutPlace(Uint8Array.of(1, 2, 3))).toBeNull()
  })

  test('of a PNG texts and Exif go, and its pixels stay', () => {
    const chunk = (name: string, body: string): Buffer => {
      const size = Buffer.alloc(4)
      size.writeUInt32BE(body.length)
      return Buffer.concat([size, Buffer.from(name + body, 'latin1'), Buffer.alloc(4)])
    }
    const head = chunk('IHDR', '\0\0\0\u0004\0\0\0\u0003\u0008\u0002\0\0\0')
    const [start, pixels, end] = [
      Buffer.from('\u0089PNG\r\n\u001a\n', 'latin1'),
      chunk('IDAT', 'xyz'),
      chunk('IEND', ''),
    ]
    const place = [chunk('eXIf', 'MM'), chunk('tEXt', 'where\0here'), chunk('vpAg', '?')]
    const whole = Buffer.concat([
      start,
      head,
      place[0]!,
      pixels,
      place[1]!,
      place[2]!,
      end,
      Buffer.from('more'),
    ])
    expect(Buffer.from(withoutPlace(whole)!)).toEqual(Buffer.concat([start, head, pixels, end]))
    expect(withoutPlace(whole.subarray(0, 60))).toBeNull()
  })

  test('of a WebP Exif and XMP go, with the flags that tell of them', () => {
    const chunk = (name: string, body: Buffer): Buffer => {
      const size = Buffer.alloc(4)
      size.writeUInt32LE(body.length)
      return Buffer.concat([Buffer.from(name), size, body, Buffer.alloc(body.length % 2)])
    }
    const file = (flags: number, ...chunks: readonly Buffer[]): Buffer => {
      const wide = Buffer.from([flags, 0, 0, 0, 3, 0, 0, 2, 0, 0])
      return chunk('RIFF', Buffer.concat([Buffer.from('WEBP'), chunk('VP8X', wide), ...chunks]))
    }
    const pixels = chunk('VP8L', Buffer.from('pixels.'))
    const whole = file(0x1c, pixels, chunk('EXIF', Buffer.from('where')), chunk('XMP ', Buffer.from('here')))
    const kept = withoutPlace(whole)!
    expect(Buffer.from(kept)).toEqual(file(0x10, pixels))
    expect(maybePicture(kept)).toMatchObject({ width: 4, height: 3 })
  })
})
