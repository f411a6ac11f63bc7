import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Aside } from '../../../../renderer/ribbons/bundles.ts'
import { geometryOf } from '../../../../renderer/frame/geometry.ts'
import {
  allTabs,
  placeTabs,
  tabIndex,
  tabLeft,
  tabSizeFor,
  trunkOf,
} from '../../../../renderer/ribbons/tabs.ts'

it('every tab has its index', () => {
  expect(allTabs.map(tabIndex)).toEqual(allTabs.map((_, i) => i))
})

/** What one pane can have at an edge: of a folded one all ends are folded, of an open one none. */
const anyEdge: fc.Arbitrary<Aside[]> = fc.oneof(
  fc.constant<Aside[]>(['folded']),
  fc.subarray<Aside>(['elsewhere', 'above', 'below']),
)

const anyFrame = fc
  .record({
    rootFont: fc.constantFrom(15, 20),
    height: fc.integer({ min: 560, max: 1400 }),
    edges: fc.tuple(anyEdge, anyEdge, anyEdge, anyEdge),
    // Heads in root font sizes; below them a bar or two. What stands under a text, such as the composer, in px.
    heads: fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 3.1, max: 7, noNaN: true }))),
    feet: fc.tuple(...[0, 1, 2].map(() => fc.nat(200))),
  })
  .map(({ rootFont, height, edges, heads, feet }) => {
    const size = { width: 1280, height }
    const box = (i: number) => ({ top: heads[i]! * rootFont, bottom: height - feet[i]! })
    return {
      view: {
        geometry: geometryOf({ sources: 300, journal: 480, procedure: 428 }, [], 36, size),
        boxes: { sources: box(0), journal: box(1), procedure: box(2) },
        tabSize: tabSizeFor(rootFont),
        rootFont,
      },
      counts: allTabs.map(({ gap, side, aside }) =>
        edges[gap * 2 + (side === 'right' ? 1 : 0)]!.includes(aside) ? 1 : 0,
      ),
    }
  })

it('tabs lie in their gap and in the frame, and no two over each other', () => {
  fc.assert(
    fc.property(anyFrame, ({ view, counts }) => {
      const heights = placeTabs(counts, view)
      const { width, height } = view.tabSize
      const shown = allTabs.flatMap((tab, i) =>
        counts[i] ? [{ tab, at: heights[i]!, left: tabLeft(tab, view) }] : [],
      )
      for (const { tab, at, left } of shown) {
        const gap = view.geometry.gaps[tab.gap]
        expect(left).toBeGreaterThanOrEqual(gap.left)
        expect(left + width).toBeLessThanOrEqual(gap.right)
        expect(Math.abs(trunkOf(tab, view) - left - width / 2)).toBeLessThanOrEqual(0.5)
        expect(at - height / 2).toBeGreaterThanOrEqual(0)
        expect(at + height / 2).toBeLessThanOrEqual(view.geometry.height)
      }
      for (const [i, one] of shown.entries())
        for (const other of shown.slice(i + 1)) {
          const isBeside = Math.abs(one.left - other.left) >= width
          expect(isBeside || Math.abs(one.at - other.at) >= height).toBe(true)
        }
    }),
    { numRuns: 1000 },
  )
})

it('tabs are targets of at least 24 px (WCAG 2.2, 2.5.8) at every root font', () => {
  for (const rootFont of [8, 15, 20, 32]) {
    const { width, height } = tabSizeFor(rootFont)
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(24)
  }
})

it('tabs keep their own places where there is room, and of two at one height the left one does', () => {
  const size = { width: 1280, height: 740 }
  const box = { top: 60, bottom: 740 }
  const view = {
    geometry: geometryOf({ sources: 300, journal: 480, procedure: 428 }, [], 36, size),
    boxes: { sources: box, journal: { top: 60, bottom: 640 }, procedure: { top: 60, bottom: 640 } },
    tabSize: tabSizeFor(15),
    rootFont: 15,
  }
  const heightsOf = (
    ...places: [gap: 0 | 1, side: 'left' | 'right', aside: 'above' | 'below' | 'folded'][]
  ) => {
    const indexes = places.map(([gap, side, aside]) => tabIndex({ gap, side, aside }))
    const heights = placeTabs(
      allTabs.map((_, i) => (indexes.includes(i) ? 1 : 0)),
      view,
    )
    return indexes.map((i) => heights[i])
  }
  const reach = view.tabSize.height / 2 + 2
  const step = view.tabSize.height + 4
  expect(heightsOf([0, 'left', 'below'], [0, 'right', 'below'])).toEqual([740 - reach, 640 - reach])
  expect(heightsOf([0, 'left', 'above'], [0, 'right', 'above'])).toEqual([60 + reach, 60 + reach + step])
  expect(heightsOf([0, 'left', 'folded'], [0, 'right', 'folded'])).toEqual([311, 311 + step])
  expect(heightsOf([1, 'left', 'below'], [1, 'right', 'below'])).toEqual([640 - reach, 640 - reach - step])
})
