import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bands, type Band } from '../../../../renderer/frame/layout.ts'
import {
  stands,
  toBundles,
  type Aside,
  type Bundle,
  type Strand,
} from '../../../../renderer/ribbons/bundles.ts'
import {
  formOfTrunk,
  layOut,
  toDrawn,
  type Drawn,
  type DrawnFrame,
  type FrameView,
} from '../../../../renderer/ribbons/layout.ts'
import { allTabs, tabIndex } from '../../../../renderer/ribbons/tabs.ts'
import { acrossFirstGap, anyStrands, at, endOf, geometry, ribbonOf, strandOf, viewOf } from './strands.ts'

/** Some panes are scrolled at a time, the others stay: as a person scrolls. */
const anyScrolling = fc.array(
  fc.dictionary(fc.constantFrom(...bands), fc.oneof(fc.nat(60), fc.nat(1800)), { noNullPrototype: true }),
  { minLength: 1, maxLength: 12 },
)

function toViews(moves: readonly Partial<Record<Band, number>>[]): FrameView[] {
  const base = viewOf()
  let scrolled = base.scrolled
  return moves.map((move) => ({ ...base, scrolled: (scrolled = { ...scrolled, ...move }) }))
}

const pictureOf = (drawn: readonly Drawn[]) =>
  structuredClone(drawn.map(({ form, strokes, left, right }) => ({ form, strokes, left, right })))

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)

describe('scrolling', () => {
  it('draws the same frame from the last one as from nothing, and says of all that changed that it moved', () => {
    fc.assert(
      fc.property(anyStrands, anyScrolling, (strands, moves) => {
        const bundles = toBundles(strands)
        const drawn = toDrawn(bundles, geometry)
        let last: DrawnFrame | null = null
        let before: ReturnType<typeof pictureOf> | null = null
        for (const view of toViews(moves)) {
          last = layOut(drawn, view, last)
          const fresh = toDrawn(bundles, geometry)
          expect(last.tabs).toEqual(layOut(fresh, view, null).tabs)
          const picture = pictureOf(drawn)
          expect(picture).toEqual(pictureOf(fresh))
          drawn.forEach(({ isMoved }, i) => {
            if (!isMoved) expect(isSame(picture[i]!.strokes, before![i]!.strokes)).toBe(true)
          })
          before = picture
        }
      }),
    )
  })

  it('leaves alone what stands in panes that were not scrolled', () => {
    const drawn = toDrawn(toBundles([acrossFirstGap(at(100), at(300))]), geometry)
    const first = layOut(drawn, viewOf(), null)
    expect(drawn[0]!.isMoved).toBe(true)
    const second = layOut(
      drawn,
      { ...first.view, scrolled: { ...first.view.scrolled, procedure: 50 } },
      first,
    )
    expect(drawn[0]!.isMoved).toBe(false)
    layOut(drawn, { ...second.view, scrolled: { ...second.view.scrolled, journal: 50 } }, second)
    expect(drawn[0]!.isMoved).toBe(true)
    expect(drawn[0]!.strokes).toMatchObject([{ kind: 'curve', y: 110, over: 150 }])
  })
})

/** Where an end is, told from the words of its type alone. Null: in sight. */
function asideOf({ spot, band }: Bundle['left'], { boxes, scrolled }: FrameView): Aside | null {
  if (!stands(spot)) return spot.kind
  if (spot.kind === 'fixed') return null
  if (spot.bottom - scrolled[band] - boxes[band].top < 4) return 'above'
  return boxes[band].bottom - (spot.top - scrolled[band]) < 4 ? 'below' : null
}

/** What each tab should say: the links with one end in sight and the other one there. */
function naiveCounts(bundles: readonly Bundle[], view: FrameView): number[] {
  return allTabs.map(({ gap, side, aside }) => {
    const band =
      gap === 0 ? (side === 'left' ? 'sources' : 'journal') : side === 'left' ? 'journal' : 'procedure'
    return bundles
      .filter(({ route, left, right }) => {
        const [hidden, seen] = asideOf(left, view) === null ? [right, left] : [left, right]
        if (asideOf(seen, view) !== null || asideOf(hidden, view) !== aside || hidden.band !== band)
          return false
        // The journal has two edges: ribbons to the procedure leave by the right one, all others by the left one.
        return band !== 'journal' || gap === (route === 'second gap' ? 1 : 0)
      })
      .reduce((sum, { strands }) => sum + strands.length, 0)
  })
}

describe('tabs', () => {
  it('count the links whose far end is out of sight', () => {
    fc.assert(
      fc.property(anyStrands, anyScrolling, (strands, moves) => {
        const bundles = toBundles(strands)
        const drawn = toDrawn(bundles, geometry)
        let last: DrawnFrame | null = null
        for (const view of toViews(moves)) {
          last = layOut(drawn, view, last)
          expect(last.tabs.counts).toEqual(naiveCounts(bundles, view))
        }
      }),
    )
  })

  const tabsOf = (strand: Strand, view = viewOf()) => {
    const drawn = toDrawn(toBundles([strand]), geometry)
    const { counts, trunks } = layOut(drawn, view, null).tabs
    const [kinds] = drawn.map(({ strokes }) => strokes.map(({ kind }) => kind))
    return { shown: allTabs.filter((_, i) => counts[i]! > 0), trunks, kinds }
  }

  it('stand at the pane’s edge, above for what was scrolled away and below for what is to come', () => {
    const strand = acrossFirstGap(at(100), at(300))
    expect(tabsOf(strand)).toMatchObject({ shown: [], kinds: ['curve'] })
    const above = tabsOf(strand, viewOf({ sources: 500 }))
    expect(above).toMatchObject({ shown: [{ gap: 0, side: 'left', aside: 'above' }], kinds: ['elbow'] })
    const below = tabsOf(acrossFirstGap(at(100), at(900)))
    expect(below.shown).toEqual([{ gap: 0, side: 'right', aside: 'below' }])
    expect(tabsOf(acrossFirstGap({ kind: 'folded' }, at(300))).shown).toEqual([
      { gap: 0, side: 'left', aside: 'folded' },
    ])
    expect(tabsOf(strand, viewOf({ sources: 500, journal: 700 }))).toMatchObject({ shown: [], kinds: [] })
  })

  it('of a ribbon under the journal stand in the gap of the end that is out of sight', () => {
    const ribbon = ribbonOf(endOf('sources', 's'), endOf('procedure', 'p'))
    const strand = strandOf(ribbon, at(100), at(300))
    expect(tabsOf(strand).kinds).toEqual(['curve', 'curve'])
    const [left, right] = [
      tabsOf(strand, viewOf({ sources: 500 })),
      tabsOf(strand, viewOf({ procedure: 700 })),
    ]
    expect(left).toMatchObject({ shown: [{ gap: 0, side: 'left' }], kinds: ['elbow', 'curve'] })
    expect(right).toMatchObject({ shown: [{ gap: 1, side: 'right' }], kinds: ['curve', 'elbow'] })
  })

  it('have trunks that reach their furthest elbow, drawn as what they gather where that is of one form', () => {
    const gather = (form: 'cites' | 'quotes', top: number) =>
      strandOf(
        ribbonOf(endOf('sources', `${form}`), endOf('journal', `${top}`), form),
        { kind: 'above' },
        at(top),
      )
    const trunkOf = (strands: readonly Strand[]) => {
      const { tabs } = layOut(toDrawn(toBundles(strands), geometry), viewOf(), null)
      const tab = tabIndex({ gap: 0, side: 'left', aside: 'above' })
      return { ...tabs.trunks[tab]!, at: tabs.heights[tab]! }
    }
    const trunk = trunkOf([gather('cites', 200), gather('cites', 400)])
    expect([trunk.top, trunk.bottom]).toEqual([trunk.at, 410 - 16])
    expect(formOfTrunk(trunk)).toBe('cites')
    expect(formOfTrunk(trunkOf([gather('cites', 200), gather('quotes', 400)]))).toBe('quotes')
  })
})
