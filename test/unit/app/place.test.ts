import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ensureVisible, keepPlace, maybeReadPlace, smallest, type Area } from '../../../app/place.ts'

const area = fc.record({
  x: fc.integer({ min: -8000, max: 8000 }),
  y: fc.integer({ min: -8000, max: 8000 }),
  width: fc.integer({ min: smallest.width, max: 8000 }),
  height: fc.integer({ min: smallest.height, max: 8000 }),
})
const place = fc.record({
  x: fc.integer({ min: -20000, max: 20000 }),
  y: fc.integer({ min: -20000, max: 20000 }),
  width: fc.integer({ min: 1, max: 20000 }),
  height: fc.integer({ min: 1, max: 20000 }),
  maximized: fc.boolean(),
})
const isWithin = (inner: Area, outer: Area): boolean =>
  inner.x >= outer.x &&
  inner.y >= outer.y &&
  inner.x + inner.width <= outer.x + outer.width &&
  inner.y + inner.height <= outer.y + outer.height

describe('where a window opens', () => {
  it('is always wholly on one screen and never smaller than can be used', () => {
    fc.assert(
      fc.property(fc.option(place), fc.array(area, { minLength: 1, maxLength: 4 }), (former, areas) => {
        const found = ensureVisible(former, areas)
        expect(areas.some((one) => isWithin(found, one))).toBe(true)
        expect(found.width).toBeGreaterThanOrEqual(smallest.width)
        expect(found.height).toBeGreaterThanOrEqual(smallest.height)
      }),
    )
  })

  it('is where it was when that can be seen', () => {
    const screen = { x: 0, y: 0, width: 1920, height: 1080 }
    const former = { x: 100, y: 50, width: 1000, height: 700, maximized: true }
    expect(ensureVisible(former, [screen])).toEqual(former)
  })

  it('is the middle of the main screen when its own screen is gone', () => {
    const screen = { x: 0, y: 0, width: 1920, height: 1080 }
    const former = { x: 3000, y: 50, width: 1000, height: 700, maximized: false }
    expect(ensureVisible(former, [screen])).toEqual({
      x: 460,
      y: 190,
      width: 1000,
      height: 700,
      maximized: false,
    })
  })
})

describe('the kept place', () => {
  const file = join(mkdtempSync(join(tmpdir(), 'stillroom-place-')), 'window.json')

  it('comes back as it was kept', () => {
    const kept = { x: 1, y: 2, width: 800, height: 600, maximized: false }
    keepPlace(file, kept)
    expect(maybeReadPlace(file)).toEqual(kept)
  })

  it.each(['', '{', 'null', '{"x":1}', '{"x":"1","y":2,"width":3,"height":4,"maximized":false}'])(
    'is none for %j',
    (text) => {
      writeFileSync(file, text)
      expect(maybeReadPlace(file)).toBeNull()
    },
  )

  it('is none where there is no file', () => {
    expect(maybeReadPlace(join(tmpdir(), 'no-such-folder', 'window.json'))).toBeNull()
  })
})
