import { describe, expect, test } from 'vitest'
import { cameraSays, toCameraTime } from '../../../../../shared/journal/pictures/camera.ts'
import { toPhoto } from '../../../../support/pictures/photo.ts'

describe('what a camera says', () => {
  test.each(['II', 'MM'] as const)(
    'time, offset, camera and place are read in either order of bytes (%s)',
    (order) => {
      const photo = toPhoto({
        order,
        taken: '2026:11:24 21:05:09',
        fraction: '25',
        offset: '+01:00',
        make: 'Meridian',
        model: 'Meridian P4',
        orientation: 6,
        where: [47.5, 11.25],
      })
      expect(cameraSays(photo)).toEqual({
        taken: { local: Date.UTC(2026, 10, 24, 21, 5, 9, 250), offset: 60 },
        camera: 'Meridian P4',
        orientation: 6,
        saysWhere: true,
      })
    },
  )

  test('a picture that says nothing, and bytes that are none, say nothing', () => {
    const nothing = { taken: null, camera: '', orientation: 1, saysWhere: false }
    expect(cameraSays(toPhoto({}))).toEqual(nothing)
    expect(cameraSays(Uint8Array.of(1, 2, 3))).toEqual(nothing)
    expect(cameraSays(new Uint8Array())).toEqual(nothing)
  })

  test('a time without an offset is the time of the camera’s own clock', () => {
    expect(cameraSays(toPhoto({ taken: '2026:02:28 00:00:00', make: 'Meridian' }))).toMatchObject({
      taken: { local: Date.UTC(2026, 1, 28), offset: null },
      camera: 'Meridian',
    })
  })

  test('no cut or changed byte of the camera’s data makes the reading fail', () => {
    const photo = toPhoto({ taken: '2026:11:24 21:05:09', offset: '-05:30', make: 'M', where: [1, 2] })
    for (let at = 2; at < 260; at += 1) {
      const changed = photo.slice()
      changed[at] = 0xff
      expect(() => cameraSays(changed)).not.toThrow()
      expect(() => cameraSays(photo.slice(0, at))).not.toThrow()
    }
  })

  test.each([
    ['0000:00:00 00:00:00', ''],
    ['2026:02:30 10:00:00', ''],
    ['2026:13:01 10:00:00', ''],
    ['2026:01:01 24:00:00', ''],
    ['    :  :     :  :  ', ''],
    ['2026-01-01 10:00:00', ''],
  ])('%j is no time', (time) => {
    expect(toCameraTime(time, '', '')).toBeNull()
  })

  test('an offset that is none is not said', () => {
    expect(toCameraTime('2026:01:01 10:00:00', '', '   :  ')?.offset).toBeNull()
    expect(toCameraTime('2026:01:01 10:00:00', '', '-03:30')?.offset).toBe(-210)
  })
})
