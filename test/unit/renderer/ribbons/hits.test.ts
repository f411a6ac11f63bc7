import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toBundles, type Strand } from '../../../../renderer/ribbons/bundles.ts'
import { distanceTo, middleOf } from '../../../../renderer/ribbons/geometry.ts'
import { findAt, goalOf, REACH } from '../../../../renderer/ribbons/hits.ts'
import { layOut, toDrawn } from '../../../../renderer/ribbons/layout.ts'
import { tabIndex, trunkOf } from '../../../../renderer/ribbons/tabs.ts'
import { acrossFirstGap, anyStrands, at, endOf, geometry, ribbonOf, strandOf, viewOf } from './strands.ts'

function draw(strands: readonly Strand[]) {
  const drawn = toDrawn(toBundles(strands), geometry)
  const { tabs, view } = layOut(drawn, viewOf(), null)
  return { drawn, tabs, find: (x: number, y: number) => findAt(drawn, tabs, view, x, y) }
}

const noOrder = { ofPart: () => undefined, ofStep: () => undefined }
const above = { gap: 0, side: 'left', aside: 'above' } as const

describe('findAt', () => {
  it('finds the ribbon of a stroke at its middle, or one that is no further, or a tab over it', () => {
    fc.assert(
      fc.property(anyStrands, (strands) => {
        const { drawn, find } = draw(strands)
        for (const { strokes } of drawn)
          for (const stroke of strokes) {
            const middle = middleOf(stroke)
            if (!middle) continue
            const found = find(...middle)!
            if ('tab' in found) continue
            const distances = drawn[found.ribbon]!.strokes.map((one) => distanceTo(one, ...middle))
            expect(Math.min(...distances)).toBeLessThanOrEqual(distanceTo(stroke, ...middle))
          }
      }),
    )
  })

  it('finds the nearer of two ribbons, and none beyond its reach', () => {
    const { drawn, find } = draw([acrossFirstGap(at(200), at(200)), acrossFirstGap(at(300), at(300))])
    expect(find(318, 212)).toEqual({ ribbon: 0 })
    expect(find(318, 308)).toEqual({ ribbon: 1 })
    expect(find(318, 210 + REACH + 1)).toBeNull()
    expect(find(700, 210)).toBeNull()
    expect(drawn).toHaveLength(2)
  })

  it('finds a tab before a ribbon that runs under it, and its trunk after the ribbons', () => {
    const tab = tabIndex(above)
    const { tabs, find } = draw([
      acrossFirstGap({ kind: 'above' }, at(500)),
      acrossFirstGap(at(60, 100), at(60, 100)),
      acrossFirstGap(at(300), at(300)),
    ])
    const x = trunkOf(above, viewOf())
    expect(find(x, tabs.heights[tab]!)).toEqual({ tab })
    expect(find(x, 200)).toEqual({ tab })
    expect(find(x, 310)).toEqual({ ribbon: 2 })
    expect(draw([acrossFirstGap(at(60, 100), at(60, 100))]).find(x, 80)).toEqual({ ribbon: 0 })
  })
})

describe('goalOf', () => {
  const source = endOf('sources', 's', { places: [{ start: 3, end: 9 }] })
  const entry = endOf('journal', 'e')
  const goal = (strand: Strand, own: string[]) =>
    goalOf(draw([strand]).drawn, { ribbon: 0 }, new Set(own), noOrder)?.node.id

  it('leads to the end out of sight, else to the one that the person is not at, else to the older one', () => {
    const ribbon = ribbonOf(source, entry)
    expect(goal(strandOf(ribbon, { kind: 'above' }, at(100)), ['s'])).toBe('s')
    expect(goal(strandOf(ribbon, at(100), at(5000)), ['e'])).toBe('e')
    expect(goal(strandOf(ribbon, at(100), at(100)), ['s'])).toBe('e')
    expect(goal(strandOf(ribbon, at(100), at(100)), ['e'])).toBe('s')
    expect(goal(strandOf(ribbon, at(100), at(100)), [])).toBe('s')
  })

  it('leads from a tab to the nearest thing that it gathers, with all its words in order', () => {
    const entries = [0, 1, 2].map((n) => endOf('journal', `e${n}`))
    const words = (start: number) => endOf('sources', 's', { places: [{ start, end: start + 5 }] })
    const far = endOf('sources', 'far')
    const strands = [
      strandOf(ribbonOf(far, entries[0]!), at(-900), at(100)),
      strandOf(ribbonOf(words(40), entries[1]!), at(-200), at(200)),
      strandOf(ribbonOf(words(10), entries[2]!), at(-300), at(300)),
    ]
    const pressed = goalOf(draw(strands).drawn, { tab: tabIndex(above) }, new Set(), noOrder)
    expect(pressed).toEqual({
      node: { kind: 'source', id: 's' },
      ranges: [
        { start: 10, end: 15 },
        { start: 40, end: 45 },
      ],
    })
    const below = { ...above, aside: 'below' } as const
    expect(goalOf(draw(strands).drawn, { tab: tabIndex(below) }, new Set(), noOrder)).toBeNull()
  })
})
