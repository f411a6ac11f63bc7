/** Ribbons between three panes of a made-up frame, drawn by chance or by hand. */
import fc from 'fast-check'
import { geometryOf } from '../../../../renderer/frame/geometry.ts'
import { bands, type Band } from '../../../../renderer/frame/layout.ts'
import { routeOf, type Spot, type Strand } from '../../../../renderer/ribbons/bundles.ts'
import type { FrameView } from '../../../../renderer/ribbons/layout.ts'
import { ribbonForms, type RibbonEnd, type RibbonLink } from '../../../../renderer/ribbons/links.ts'
import { tabSizeFor } from '../../../../renderer/ribbons/tabs.ts'
import type { SourceId } from '../../../../shared/lab/ids.ts'
import type { Link, LinkNode } from '../../../../shared/lab/model.ts'

const kindOf = { sources: 'source', journal: 'entry', procedure: 'part' } as const

export const endOf = (band: Band, id: string, more: Partial<RibbonEnd> = {}): RibbonEnd => ({
  band,
  node: { kind: kindOf[band], id } as LinkNode,
  source: band === 'sources' ? (id as SourceId) : null,
  places: [],
  isLost: false,
  key: id,
  ...more,
})

let made = 0
export const ribbonOf = (
  older: RibbonEnd,
  newer: RibbonEnd,
  form: RibbonLink['form'] = 'derives',
): RibbonLink => {
  const link = { id: `l${made++}`, older: { node: older.node }, newer: { node: newer.node } }
  return { link: link as unknown as Link, form, older, newer }
}

export const strandOf = (ribbon: RibbonLink, leftSpot: Spot, rightSpot: Spot, isOwn = false): Strand => ({
  ribbon,
  ...routeOf(ribbon)!,
  leftSpot,
  rightSpot,
  isOwn,
})

export const at = (top: number, bottom = top + 20): Spot => ({ kind: 'at', top, bottom })

/** From a source at one height to an entry at another, each time between two other things. */
export const acrossFirstGap = (left: Spot, right: Spot, isOwn = false): Strand => {
  const n = made++
  return strandOf(ribbonOf(endOf('sources', `s${n}`), endOf('journal', `e${n}`)), left, right, isOwn)
}

const anyEnd = fc
  .tuple(fc.constantFrom(...bands), fc.nat(3), fc.boolean(), fc.boolean())
  .map(([band, n, isLost, hasWords]) =>
    endOf(band, `${band} ${n}`, { isLost, places: hasWords ? [{ start: 0, end: 4 }] : [] }),
  )

const anySpot: fc.Arbitrary<Spot> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .tuple(
        fc.constantFrom('at', 'at', 'rough', 'fixed'),
        fc.integer({ min: -300, max: 1800 }),
        fc.integer({ min: 4, max: 90 }),
      )
      .map(([kind, top, height]): Spot => ({ kind, top, bottom: top + height })),
  },
  fc.constantFrom('above', 'below', 'elsewhere', 'folded').map((kind): Spot => ({ kind })),
)

export const anyStrands = fc
  .array(fc.tuple(anyEnd, anyEnd, anySpot, anySpot, fc.boolean(), fc.constantFrom(...ribbonForms)), {
    maxLength: 40,
  })
  .map((all) =>
    all.flatMap(([older, newer, left, right, isOwn, form]) => {
      const ribbon = ribbonOf(older, newer, form)
      return routeOf(ribbon) ? [strandOf(ribbon, left, right, isOwn)] : []
    }),
  )

const size = { width: 1280, height: 740 }
export const geometry = geometryOf({ sources: 300, journal: 480, procedure: 428 }, [], 36, size)

/** Of 740 px the panes' heads take 60 and the composer 100. */
const boxes = {
  sources: { top: 60, bottom: 740 },
  journal: { top: 60, bottom: 640 },
  procedure: { top: 60, bottom: 740 },
}
const unscrolled = { sources: 0, journal: 0, procedure: 0 }

export const viewOf = (scrolled: Partial<FrameView['scrolled']> = {}): FrameView => ({
  geometry,
  boxes,
  scrolled: { ...unscrolled, ...scrolled },
  tabSize: tabSizeFor(15),
  rootFont: 15,
})
