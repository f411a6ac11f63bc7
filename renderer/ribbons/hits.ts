/** What of the ribbons a point is at, and where a press there leads. Pure. */
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import { stands, type Spot, type Strand } from './bundles.ts'
import { distanceTo } from './geometry.ts'
import { indexInList } from './order.ts'
import type { Drawn, DrawnTabs } from './layout.ts'
import type { RibbonEnd } from './links.ts'
import type { Pointed } from './drawing/painter.ts'
import type { RowOrder } from './surfaces/procedure.ts'
import { allTabs, tabLeft, trunkOf, type TabView } from './tabs.ts'

/** A ribbon is pressed within this distance of its middle, so 24 px and more across (WCAG 2.2, 2.5.8). */
export const REACH = 13

/** The tab at a point, else what is nearest within reach: a ribbon, or the tab of a trunk. */
export function findAt(
  drawn: readonly Drawn[],
  { counts, heights, trunks }: DrawnTabs,
  view: TabView,
  x: number,
  y: number,
): Pointed | null {
  const { width, height } = view.tabSize
  const tab = allTabs.findIndex((one, i) => {
    const left = tabLeft(one, view)
    return counts[i]! > 0 && x >= left && x <= left + width && Math.abs(y - heights[i]!) <= height / 2
  })
  if (tab >= 0) return { tab }
  let [ribbon, least] = [-1, REACH]
  drawn.forEach(({ strokes }, i) => {
    for (const stroke of strokes) {
      const distance = distanceTo(stroke, x, y)
      if (distance < least) [ribbon, least] = [i, distance]
    }
  })
  if (ribbon >= 0) return { ribbon }
  const trunk = allTabs.findIndex((one, i) => {
    const { top, bottom } = trunks[i]!
    return counts[i]! > 0 && Math.abs(x - trunkOf(one, view)) < REACH && y > top && y < bottom
  })
  return trunk < 0 ? null : { tab: trunk }
}

/** A thing to go to, with the words to mark there. */
export interface Goal {
  readonly node: LinkNode
  readonly ranges: readonly Range[]
}

/**
 * Where a press leads: to the end that is out of sight; where both are in sight, to the one that is not what the person is
 * at, or else to the older one.
 * @param own the ids of what the person is at
 */
export function goalOf(
  drawn: readonly Drawn[],
  pointed: Pointed,
  own: ReadonlySet<string>,
  order: RowOrder,
): Goal | null {
  if ('tab' in pointed) return goalOfTab(drawn, pointed.tab, order)
  const one = drawn[pointed.ribbon]
  const strand = one?.bundle.strands[0]
  if (!one || !strand) return null
  if (!Number.isFinite(one.left)) return goalAt(one.bundle.strands, 'left')
  if (!Number.isFinite(one.right)) return goalAt(one.bundle.strands, 'right')
  const { older, newer } = strand.ribbon
  const far = own.has(older.node.id) && !own.has(newer.node.id) ? newer : older
  return goalAt(one.bundle.strands, far === strand.left ? 'left' : 'right')
}

/** The first thing of some strands on one side, with all of their words in it. */
function goalAt(strands: readonly Strand[], side: 'left' | 'right', first = strands[0]): Goal | null {
  if (!first) return null
  const { node } = first[side]
  const ends = strands.map((strand) => strand[side]).filter((end) => end.node.id === node.id)
  const ranges = new Map(
    ends.flatMap(({ places }) => places.map((place) => [`${place.start}-${place.end}`, place])),
  )
  return { node, ranges: [...ranges.values()].sort((a, b) => a.start - b.start) }
}

/** Of the things that a tab gathers, the one that is nearest to the view. */
function goalOfTab(drawn: readonly Drawn[], tab: number, order: RowOrder): Goal | null {
  const gathered = drawn.flatMap((one) => {
    if (one.form !== tab) return []
    const side = Number.isFinite(one.left) ? ('right' as const) : ('left' as const)
    return one.bundle.strands.map((strand) => ({ strand, side, at: positionOf(strand, side, order) }))
  })
  const isAbove = allTabs[tab]!.aside === 'above'
  const nearest = gathered.reduce<(typeof gathered)[number] | null>(
    (best, one) => (best === null || (isAbove ? one.at > best.at : one.at < best.at) ? one : best),
    null,
  )
  if (!nearest) return null
  const strands = gathered.filter(({ side }) => side === nearest.side).map(({ strand }) => strand)
  return goalAt(strands, nearest.side, nearest.strand)
}

/** Things in the page by their heights; those that are not by their rows' order, beyond all others. */
function positionOf(strand: Strand, side: 'left' | 'right', order: RowOrder): number {
  const spot: Spot = side === 'left' ? strand.leftSpot : strand.rightSpot
  if (stands(spot)) return spot.top
  const index = indexOfRow(strand[side], order)
  return spot.kind === 'above' ? index - FAR : index + FAR
}

const FAR = 1e9

function indexOfRow(end: RibbonEnd, order: RowOrder): number {
  if (end.band === 'procedure') return order.ofPart(end.node.id) ?? 0
  return indexInList(end.band, end.source ?? end.node.id) ?? 0
}
