/**
 * Following words along links. A link goes on where another ended only where the two have words in common in the thing
 * between them: what was carried out of an entry's first line did not come from the page that its last line quotes.
 */
import type { LinkId } from '../lab/ids.ts'
import type { LinkState, Range } from '../lab/model.ts'
import type { Joined, Near, TraceDirection } from './graph.ts'
import { farEndOf } from './trace.ts'

/**
 * Where something stands in a text as it is now. All of it: also where the thing as a whole is meant, and where not all of
 * the words can be found any more, since they may have stood anywhere.
 */
export type Places = readonly Range[] | 'all'

/** Where both ends of a link stand. */
export interface EndPlaces {
  readonly newer: Places
  readonly older: Places
}

const everywhere: EndPlaces = { newer: 'all', older: 'all' }

/** The places of a link's ends, by its state; everywhere while that is not derived. */
export function endPlaces(state: LinkState | undefined): EndPlaces {
  return state ? { newer: placesOf(state.newer.places), older: placesOf(state.older.places) } : everywhere
}

function placesOf(places: readonly (Range | null)[]): Places {
  const found = places.filter((place) => place !== null)
  return found.length === 0 || found.length < places.length ? 'all' : found
}

/** Whether two places have at least one character in common. */
export function meets(a: Places, b: Places): boolean {
  if (a === 'all' || b === 'all') return true
  return a.some((one) => b.some((other) => one.start < other.end && other.start < one.end))
}

/** Something at a place of its text, from which links are followed. */
export interface Spot {
  readonly node: string
  readonly places: Places
}

/** What a walk along words is told of the links. */
export interface Followable<L extends Joined> {
  /** The links at a node, in the direction of the walk. */
  readonly near: Near<L>
  readonly placesOf: (link: LinkId) => EndPlaces
}

/**
 * The links that are followed from some spots: those that meet a spot, and every further one that meets the far end of one
 * that is followed. Each once, in the order in which they are met, the nearest first.
 * @param isClosed nodes that no link is followed to
 */
export function followWords<L extends Joined>(
  { near, placesOf }: Followable<L>,
  spots: readonly Spot[],
  direction: TraceDirection,
  isClosed: (node: string) => boolean = () => false,
): L[] {
  const [nearSide, farSide] =
    direction === 'back' ? (['newer', 'older'] as const) : (['older', 'newer'] as const)
  const followed = new Set<L>()
  let open = spots
  while (open.length > 0) {
    const next: Spot[] = []
    for (const { node, places } of open)
      for (const link of near(node)) {
        const far = farEndOf(link, direction).node.id
        if (followed.has(link) || isClosed(far)) continue
        const ends = placesOf(link.id)
        if (!meets(places, ends[nearSide])) continue
        followed.add(link)
        next.push({ node: far, places: ends[farSide] })
      }
    open = next
  }
  return [...followed]
}
