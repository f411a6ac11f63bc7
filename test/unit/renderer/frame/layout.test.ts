import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { geometryOf } from '../../../../renderer/frame/geometry.ts'
import {
  bands,
  canFold,
  defaultLayout,
  frameSizesFor,
  isPaneLayout,
  panesAt,
  paneWidths,
  resizeAt,
  splitterReach,
  toggleFold,
  type Band,
  type PaneLayout,
} from '../../../../renderer/frame/layout.ts'

const normal = frameSizesFor(15)
const bench = frameSizesFor(20)

const layouts: fc.Arbitrary<PaneLayout> = fc
  .record({
    parts: fc.tuple(
      fc.integer({ min: 5, max: 90 }),
      fc.integer({ min: 5, max: 90 }),
      fc.integer({ min: 5, max: 90 }),
    ),
    folded: fc.subarray([...bands], { maxLength: 2 }),
  })
  .map(({ parts: [a, b, c], folded }) => ({
    shares: { sources: a / (a + b + c), journal: b / (a + b + c), procedure: c / (a + b + c) },
    folded,
  }))
const windows = fc.integer({ min: 900, max: 4000 })
const splitters = fc.constantFrom(0 as const, 1 as const)

const total = (widths: Record<Band, number>) => widths.sources + widths.journal + widths.procedure

describe('widths', () => {
  test('panes and gaps fill the window to the pixel', () => {
    fc.assert(
      fc.property(layouts, windows, (layout, width) => {
        expect(total(paneWidths(layout, width, normal)) + 2 * normal.gap).toBe(width)
      }),
    )
  })

  test('no open pane is narrower than it needs while there is room for all', () => {
    fc.assert(
      fc.property(
        layouts,
        fc.integer({ min: 1280, max: 4000 }),
        fc.constantFrom(normal, bench),
        (layout, width, sizes) => {
          const widths = paneWidths(layout, width, sizes)
          for (const band of bands) {
            if (!layout.folded.includes(band))
              expect(widths[band]).toBeGreaterThanOrEqual(sizes.least[band] - 1)
            else expect(widths[band]).toBe(sizes.spine)
          }
        },
      ),
    )
  })

  test('in a window that is too narrow for all, every pane gives way and none vanishes', () => {
    const widths = paneWidths(defaultLayout, 620, normal)
    expect(total(widths)).toBe(620 - 2 * normal.gap)
    for (const band of bands) expect(widths[band]).toBeGreaterThan(80)
  })

  test.each([1280, 1920])(
    'at %i px the journal and the procedure have room for 60 signs of prose',
    (width) => {
      const widths = paneWidths(defaultLayout, width, normal)
      expect(widths.sources).toBeGreaterThan(250)
      expect(widths.journal).toBeGreaterThan(430)
      expect(widths.procedure).toBeGreaterThan(450)
    },
  )

  test('before the window is measured nothing is negative', () => {
    for (const width of Object.values(paneWidths(defaultLayout, 0, normal)))
      expect(width).toBeGreaterThanOrEqual(0)
  })
})

describe('splitters', () => {
  test('a splitter goes where it is put, within its reach, and moves no pane but its two', () => {
    fc.assert(
      fc.property(
        layouts,
        windows,
        splitters,
        fc.integer({ min: -500, max: 4500 }),
        (layout, width, splitter, wanted) => {
          const reach = splitterReach(layout, splitter, width, normal)
          const sides = panesAt(layout, splitter)
          const before = paneWidths(layout, width, normal)
          const after = paneWidths(resizeAt(layout, splitter, wanted, width, normal), width, normal)
          if (reach === null || sides === null) {
            expect(after).toEqual(before)
            return
          }
          const meant = Math.max(reach.min, Math.min(wanted, reach.max))
          expect(Math.abs(after[sides.left] - meant)).toBeLessThanOrEqual(1)
          for (const band of bands) {
            if (band !== sides.left && band !== sides.right)
              expect(Math.abs(after[band] - before[band])).toBeLessThanOrEqual(1)
          }
        },
      ),
    )
  })

  test('a resized layout is still one that can be kept and read back', () => {
    fc.assert(
      fc.property(
        layouts,
        windows,
        splitters,
        fc.integer({ min: 0, max: 4000 }),
        (layout, width, splitter, wanted) => {
          const kept: unknown = JSON.parse(JSON.stringify(resizeAt(layout, splitter, wanted, width, normal)))
          expect(isPaneLayout(kept)).toBe(true)
        },
      ),
    )
  })

  test('a splitter with nothing open on one side cannot move', () => {
    const layout = toggleFold(defaultLayout, 'sources')
    expect(splitterReach(layout, 0, 1280, normal)).toBeNull()
    expect(resizeAt(layout, 0, 600, 1280, normal)).toBe(layout)
  })

  test('with the journal folded a splitter moves sources against the procedure', () => {
    const layout = toggleFold(defaultLayout, 'journal')
    expect(panesAt(layout, 0)).toEqual({ left: 'sources', right: 'procedure' })
    expect(panesAt(layout, 1)).toEqual({ left: 'sources', right: 'procedure' })
  })
})

describe('folding', () => {
  test('folding and unfolding gives the same widths as before', () => {
    fc.assert(
      fc.property(layouts, windows, fc.constantFrom(...bands), (layout, width, band) => {
        fc.pre(canFold(layout, band))
        const back = toggleFold(toggleFold(layout, band), band)
        expect(paneWidths(back, width, normal)).toEqual(paneWidths(layout, width, normal))
      }),
    )
  })

  test('a pane that was resized while another was folded leaves that one its share', () => {
    const folded = toggleFold(defaultLayout, 'sources')
    const resized = resizeAt(folded, 1, 700, 1280, normal)
    expect(toggleFold(resized, 'sources').shares.sources).toBeCloseTo(defaultLayout.shares.sources, 10)
  })

  test('the last open pane stays open', () => {
    const lone = toggleFold(toggleFold(defaultLayout, 'sources'), 'procedure')
    expect(canFold(lone, 'journal')).toBe(false)
    expect(toggleFold(lone, 'journal')).toBe(lone)
  })
})

test('the gaps lie between the panes and are 36 px wide', () => {
  const widths = paneWidths(defaultLayout, 1280, normal)
  const { gaps, panes } = geometryOf(widths, ['sources'], normal.gap, { width: 1280, height: 700 })
  expect(gaps.map(({ left, right }) => right - left)).toEqual([36, 36])
  expect(gaps[0].left).toBe(panes.sources.right)
  expect(gaps[1].right).toBe(panes.procedure.left)
  expect(panes.procedure.right).toBe(1280)
  expect([panes.sources.isFolded, panes.journal.isFolded]).toEqual([true, false])
})

test('what is not a layout is refused', () => {
  const { shares } = defaultLayout
  expect(isPaneLayout(defaultLayout)).toBe(true)
  for (const value of [
    null,
    {},
    { shares, folded: 'sources' },
    { shares: { ...shares, journal: 0.9 }, folded: [] },
    { shares: { ...shares, journal: -shares.journal }, folded: [] },
    { shares: { ...shares, journal: Number.NaN }, folded: [] },
    { shares, folded: ['journal', 'journal'] },
    { shares, folded: ['elsewhere'] },
    { shares, folded: [...bands] },
  ]) {
    expect(isPaneLayout(value), JSON.stringify(value)).toBe(false)
  }
})
