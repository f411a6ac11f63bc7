/**
 * Which ribbons are drawn as one. Pure. Ends are grouped by where they stand in their pane's text, not on the screen, so
 * that the groups stay as they are while a pane is scrolled.
 */
import type { LinkId } from '../../shared/lab/ids.ts'
import type { Band } from '../frame/layout.ts'
import type { EndMark } from './geometry.ts'
import type { RibbonEnd, RibbonForm, RibbonLink } from './links.ts'

/** Where an end is that has no height in its pane. */
export type Aside = 'above' | 'below' | 'elsewhere' | 'folded'

/**
 * Where an end is. `at` and `rough`: in the pane's text, in CSS pixels from where the text begins at rest (so that what is
 * scrolled away is taken off); rough, while it is far from view, by its row alone. `fixed`: in what does not scroll, from
 * the frame's upper edge.
 */
export type Spot =
  | { readonly kind: 'at' | 'rough' | 'fixed'; readonly top: number; readonly bottom: number }
  | { readonly kind: Aside }

/** The gap that a ribbon runs through, or the pane that it leaves and comes back to. */
export type Route = 'first gap' | 'second gap' | 'across' | 'journal' | 'procedure'

export interface Strand {
  readonly ribbon: RibbonLink
  readonly route: Route
  /** The end further left; of a ribbon within one pane, the newer one. */
  readonly left: RibbonEnd
  readonly right: RibbonEnd
  readonly leftSpot: Spot
  readonly rightSpot: Spot
  /** Belongs to what the person is at. */
  readonly isOwn: boolean
}

export interface BundleEnd {
  readonly band: Band
  readonly spot: Spot
  readonly mark: EndMark
}

export interface Bundle {
  readonly route: Route
  readonly form: RibbonForm
  readonly left: BundleEnd
  readonly right: BundleEnd
  readonly strands: readonly Strand[]
  readonly isOwn: boolean
}

const order: Readonly<Record<Band, number>> = { sources: 0, journal: 1, procedure: 2 }

/** The way of a link through the gaps, and which of its ends stands left; null for one within the sources. */
export function routeOf({ older, newer }: RibbonLink): {
  readonly route: Route
  readonly left: RibbonEnd
  readonly right: RibbonEnd
} | null {
  if (older.band === newer.band) {
    const { band } = newer
    return band === 'sources' ? null : { route: band, left: newer, right: older }
  }
  const [left, right] = order[older.band] < order[newer.band] ? [older, newer] : [newer, older]
  if (left.band === 'journal') return { route: 'second gap', left, right }
  return { route: right.band === 'journal' ? 'first gap' : 'across', left, right }
}

/** Between the same two things so many ribbons are drawn one by one; more become one. */
const MOST_ALIKE = 3
/** Ends nearer to each other than this count as one place, in CSS pixels; and where ribbons are many. */
const NEAR = 8
const NEAR_AMONG_MANY = 15
/** From so many ribbons in one gap on they are many. */
const MANY = 120

/** Joins ribbons: those between the same two things where they are several, and those whose ends nearly touch. */
export function toBundles(strands: readonly Strand[]): Bundle[] {
  const alike = groupBy(
    strands,
    ({ route, left, right, isOwn }) => `${route} ${left.node.id} ${right.node.id} ${isOwn}`,
  )
  const bundles: Bundle[] = []
  const single: Strand[] = []
  for (const group of alike.values()) {
    const standing = group.filter(({ leftSpot, rightSpot }) => stands(leftSpot) && stands(rightSpot))
    if (standing.length > MOST_ALIKE) bundles.push(toBundle(standing))
    else single.push(...standing)
    single.push(...group.filter((strand) => !standing.includes(strand)))
  }
  const radius = strands.length > MANY ? NEAR_AMONG_MANY : NEAR
  const leftSlots = slotsOf(single, 'left', radius)
  const rightSlots = slotsOf(single, 'right', radius)
  const near = groupBy(
    single,
    (strand) => `${strand.route} ${leftSlots.get(strand)} ${rightSlots.get(strand)} ${strand.isOwn}`,
  )
  for (const group of near.values()) bundles.push(toBundle(group))
  return bundles
}

/** A spot with a height. */
export type Standing = Extract<Spot, { readonly top: number }>

/** Whether a spot has a height. */
export function stands(spot: Spot): spot is Standing {
  return 'top' in spot
}

/** For each strand, the place that its end shares with others near to it. */
function slotsOf(strands: readonly Strand[], side: 'left' | 'right', radius: number): Map<Strand, string> {
  const slots = new Map<Strand, string>()
  const standing: { readonly strand: Strand; readonly group: string; readonly middle: number }[] = []
  for (const strand of strands) {
    const spot = side === 'left' ? strand.leftSpot : strand.rightSpot
    const { band } = strand[side]
    if (!stands(spot)) slots.set(strand, `${band} ${spot.kind}`)
    else
      standing.push({
        strand,
        group: `${band} ${spot.kind === 'fixed' ? 'fixed' : 'text'}`,
        middle: (spot.top + spot.bottom) / 2,
      })
  }
  standing.sort((a, b) => (a.group === b.group ? a.middle - b.middle : a.group < b.group ? -1 : 1))
  let [group, begin] = ['', 0]
  for (const one of standing) {
    if (one.group !== group || one.middle - begin > radius) {
      group = one.group
      begin = one.middle
    }
    slots.set(one.strand, `${group} ${begin}`)
  }
  return slots
}

function toBundle(strands: readonly Strand[]): Bundle {
  const first = strands[0]!
  return {
    route: first.route,
    form: formOfAll(strands.map(({ ribbon }) => ribbon.form)),
    left: toBundleEnd(strands, 'left'),
    right: toBundleEnd(strands, 'right'),
    strands,
    isOwn: first.isOwn,
  }
}

/** A bundle is drawn as quotes only where all of it is; lost words are shown only where all are lost. */
export function formOfAll(forms: readonly RibbonForm[]): RibbonForm {
  const standing = forms.filter((form) => form !== 'loose')
  const [first] = standing
  if (first === undefined) return 'loose'
  return standing.every((form) => form === first) ? first : 'derives'
}

function toBundleEnd(strands: readonly Strand[], side: 'left' | 'right'): BundleEnd {
  const ends = strands.map((strand) => strand[side])
  const spots = strands.map((strand) => (side === 'left' ? strand.leftSpot : strand.rightSpot))
  return { band: ends[0]!.band, spot: hullOf(spots), mark: markOf(strands, ends) }
}

function hullOf(spots: readonly Spot[]): Spot {
  const standing = spots.filter(stands)
  const [first] = standing
  if (!first) return spots[0]!
  return {
    kind: standing.some(({ kind }) => kind === 'rough') ? 'rough' : first.kind,
    top: Math.min(...standing.map(({ top }) => top)),
    bottom: Math.max(...standing.map(({ bottom }) => bottom)),
  }
}

function markOf(strands: readonly Strand[], ends: readonly RibbonEnd[]): EndMark {
  if (ends.every(({ isLost }) => isLost)) return 'cross'
  if (ends.some(({ places }) => places.length > 0)) return 'bar'
  const answers = strands.every(({ ribbon }) => ribbon.form === 'answers')
  return answers && ends.every((end, i) => end === strands[i]!.ribbon.older) ? 'diamond' : 'ring'
}

function groupBy<T>(things: readonly T[], keyOf: (thing: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const thing of things) {
    const key = keyOf(thing)
    const group = groups.get(key)
    if (group) group.push(thing)
    else groups.set(key, [thing])
  }
  return groups
}

/** The ids of a bundle's links. */
export function idsOf(bundle: Bundle): LinkId[] {
  return bundle.strands.map(({ ribbon }) => ribbon.link.id)
}
