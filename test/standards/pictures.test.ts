/**
 * What is read of a photo and what is taken out of it, against ImageMagick: its `identify` reads Exif data by itself, and
 * its signature (%#) is a digest of the pixels as they are decoded.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { cameraSays } from '../../shared/journal/pictures/camera.ts'
import { withoutPlace } from '../../shared/journal/pictures/without-place.ts'
import { toPhoto, type PhotoSays } from '../support/pictures/photo.ts'

const isHere = ['identify', 'convert'].every((name) => spawnSync(name, ['-version']).status === 0)
const folder = mkdtempSync(join(tmpdir(), 'pictures-'))
let count = 0

/** What ImageMagick says of bytes, in its own format. */
function identify(bytes: Uint8Array, format: string, ending = 'jpg'): string {
  const path = join(folder, `${++count}.${ending}`)
  writeFileSync(path, bytes)
  return execFileSync('identify', ['-format', format, path], { encoding: 'utf8' })
}

/** A picture that ImageMagick made of a photo, with the photo's own Exif data. */
function convert(photo: Uint8Array, options: readonly string[], ending = 'jpg'): Uint8Array {
  const [from, to] = [join(folder, `${++count}.jpg`), join(folder, `${++count}.${ending}`)]
  writeFileSync(from, photo)
  execFileSync('convert', [from, ...options, to])
  return readFileSync(to)
}

const says: PhotoSays = {
  taken: '2026:11:24 21:05:09',
  offset: '+01:00',
  make: 'Meridian',
  model: 'Meridian P4',
  orientation: 6,
  where: [47.5, 11.25],
}
const allExif = '%[EXIF:*]'

describe.skipIf(!isHere)('photos as ImageMagick reads them (skipped where it is not installed)', () => {
  test.each(['II', 'MM'] as const)('says the same time, camera and turn (%s)', (order) => {
    const photo = toPhoto({ ...says, order })
    const own = cameraSays(photo)
    expect(identify(photo, '%[EXIF:DateTimeOriginal]|%[EXIF:Model]|%[EXIF:Orientation]')).toBe(
      `${says.taken!}|${own.camera}|${own.orientation}`,
    )
    expect(own.taken).toEqual({ local: Date.UTC(2026, 10, 24, 21, 5, 9), offset: 60 })
    expect(identify(photo, allExif)).toContain('GPSLatitude')
  })

  const kinds: readonly (readonly [string, readonly string[]])[] = [
    ['baseline', []],
    ['progressive', ['-interlace', 'JPEG']],
    ['grey', ['-colorspace', 'Gray']],
    ['four colours with Adobe’s marker', ['-colorspace', 'CMYK']],
    ['with a comment', ['-set', 'comment', 'taken at the gate']],
    [
      'full of noise, with many stuffed bytes',
      ['-resize', '600x400', '-attenuate', '2', '+noise', 'Gaussian', '-quality', '98'],
    ],
  ]
  test.each(kinds)('of a JPEG (%s) the pixels stay, and of Exif only the turn', (_, options) => {
    const photo = convert(toPhoto(says), options)
    expect(identify(photo, allExif)).toContain('GPSLatitude')
    const kept = withoutPlace(photo)!
    expect(kept.length).toBeLessThan(photo.length)
    expect(identify(kept, '%#')).toBe(identify(photo, '%#'))
    expect(identify(kept, allExif).trim()).toBe('exif:Orientation=6')
    expect(identify(kept, '%c')).toBe('')
    expect(Buffer.from(kept).toString('latin1')).not.toContain('Meridian')
  })

  test('of a PNG with Exif the pixels stay', () => {
    const photo = convert(toPhoto(says), [], 'png')
    expect(Buffer.from(photo).toString('latin1')).toMatch(/eXIf|Raw profile|exif:/)
    const kept = withoutPlace(photo)!
    expect(identify(kept, '%#', 'png')).toBe(identify(photo, '%#', 'png'))
    expect(identify(kept, allExif, 'png').trim()).toBe('')
    expect(Buffer.from(kept).toString('latin1')).not.toMatch(/Meridian|exif/i)
  })
})
