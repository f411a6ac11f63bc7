/** The parts of the kit that need no screen: moving through lists, placing what floats, counting down. */
import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { createCountdown, type CountdownClock } from '../../../../renderer/ui/countdown.ts'
import { placeFor } from '../../../../renderer/ui/place.ts'
import { nextPlace, placeOfTyped } from '../../../../renderer/ui/roving.ts'
import { kindOfKey } from '../../../../renderer/ui/SegmentedKinds.tsx'

describe('moving through a list with keys (WAI-ARIA APG: menu, radio group)', () => {
  test('an arrow and the opposite arrow lead back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.nat(), (count, seed) => {
        const place = seed % count
        const down = nextPlace('ArrowDown', place, count, 'vertical')!
        expect(nextPlace('ArrowUp', down, count, 'vertical')).toBe(place)
      }),
    )
  })

  test('the ends meet, Home and End go there, and other keys do not move', () => {
    expect(nextPlace('ArrowDown', 5, 6, 'both')).toBe(0)
    expect(nextPlace('ArrowLeft', 0, 6, 'both')).toBe(5)
    expect(nextPlace('Home', 3, 6, 'vertical')).toBe(0)
    expect(nextPlace('End', 3, 6, 'vertical')).toBe(5)
    expect(nextPlace('ArrowRight', 3, 6, 'vertical')).toBeNull()
    expect(nextPlace('a', 3, 6, 'both')).toBeNull()
    expect(nextPlace('ArrowDown', 0, 0, 'both')).toBeNull()
  })

  test('from nowhere, down leads to the first and up to the last', () => {
    expect(nextPlace('ArrowDown', -1, 4, 'vertical')).toBe(0)
    expect(nextPlace('ArrowUp', -1, 4, 'vertical')).toBe(3)
  })

  test('letters find the word that begins with them, and one letter again walks on', () => {
    const words = ['Expect of step 4', 'New step after 4', 'Why of step 4', 'Export', 'Écrire']
    expect(placeOfTyped('n', words, 0)).toBe(1)
    expect(placeOfTyped('exp', words, 0)).toBe(0)
    expect(placeOfTyped('expo', words, 0)).toBe(3)
    expect(placeOfTyped('e', words, 0)).toBe(3)
    expect(placeOfTyped('ee', words, 3)).toBe(0)
    expect(placeOfTyped('é', words, 0)).toBe(4)
    expect(placeOfTyped('q', words, 0)).toBeNull()
    expect(placeOfTyped('e', [], -1)).toBeNull()
  })
})

test('what floats stays inside the window wherever its anchor is', () => {
  const window = { width: 1280, height: 800 }
  fc.assert(
    fc.property(
      fc.record({
        x: fc.integer({ min: 0, max: 1280 }),
        y: fc.integer({ min: 0, max: 800 }),
        width: fc.integer({ min: 10, max: 600 }),
        height: fc.integer({ min: 10, max: 480 }),
      }),
      fc.constantFrom('start' as const, 'centre' as const),
      ({ x, y, width, height }, alignment) => {
        const { left, top } = placeFor(
          { width, height },
          { left: x, top: y, right: x + 30, bottom: y + 28 },
          window,
          alignment,
        )
        expect(left).toBeGreaterThanOrEqual(8)
        expect(top).toBeGreaterThanOrEqual(8)
        expect(left + width).toBeLessThanOrEqual(1272)
        expect(top + height).toBeLessThanOrEqual(792)
      },
    ),
  )
})

test('what floats does not cover its anchor where there is room above or below', () => {
  const anchor = { left: 600, top: 760, right: 640, bottom: 788 }
  const { top } = placeFor({ width: 200, height: 300 }, anchor, { width: 1280, height: 800 }, 'start')
  expect(top + 300).toBeLessThan(anchor.top)
})

test('what should stand above stands there, and below only where there is more room', () => {
  const size = { width: 120, height: 30 }
  const window = { width: 1280, height: 800 }
  const at = (top: number) =>
    placeFor(size, { left: 600, top, right: 640, bottom: top + 28 }, window, 'centre', 'above').top
  expect(at(600)).toBe(565)
  expect(at(10)).toBe(43)
})

describe('the keys for kinds', () => {
  const key = (code: string, more = {}) => ({ altKey: true, ctrlKey: false, metaKey: false, code, ...more })
  test('Alt+1 to Alt+8 choose a kind by where the digit stands, whatever the layout writes there', () => {
    const kinds = [1, 2, 3, 4, 5, 6, 7, 8].map((digit) => kindOfKey(key(`Digit${digit}`)))
    expect(kinds).toEqual(['action', 'output', 'observation', 'problem', 'fix', 'decision', 'file', 'list'])
    expect(kindOfKey(key('Numpad4'))).toBe('problem')
  })
  test('other keys choose none', () => {
    for (const press of [
      key('Digit9'),
      key('Digit0'),
      key('KeyA'),
      key('Digit1', { altKey: false }),
      key('Digit1', { ctrlKey: true }),
    ]) {
      expect(kindOfKey(press)).toBeNull()
    }
  })
})

describe('the countdown of a notice', () => {
  function setUp() {
    let now = 0
    const timers = new Map<number, { at: number; call: () => void }>()
    let last = 0
    const clock: CountdownClock = {
      now: () => now,
      setTimer: (call, ms) => {
        timers.set((last += 1), { at: now + ms, call })
        return last
      },
      clearTimer: (timer) => timers.delete(timer),
    }
    const pass = (ms: number) => {
      now += ms
      for (const [timer, { at, call }] of timers) if (at <= now && timers.delete(timer)) call()
    }
    return { clock, pass }
  }

  test('it ends once, after its time', () => {
    const { clock, pass } = setUp()
    const onEnd = vi.fn()
    createCountdown(12_000, onEnd, clock)
    pass(11_999)
    expect(onEnd).not.toHaveBeenCalled()
    pass(1)
    pass(60_000)
    expect(onEnd).toHaveBeenCalledTimes(1)
  })

  test('while it is held no time passes, however long, and what is left stays left', () => {
    const { clock, pass } = setUp()
    const onEnd = vi.fn()
    const countdown = createCountdown(12_000, onEnd, clock)
    pass(10_000)
    countdown.hold()
    countdown.hold()
    pass(600_000)
    countdown.run()
    countdown.run()
    pass(1_999)
    expect(onEnd).not.toHaveBeenCalled()
    pass(1)
    expect(onEnd).toHaveBeenCalledTimes(1)
  })

  test('one that was stopped never ends', () => {
    const { clock, pass } = setUp()
    const onEnd = vi.fn()
    createCountdown(12_000, onEnd, clock).stop()
    pass(60_000)
    expect(onEnd).not.toHaveBeenCalled()
  })
})
