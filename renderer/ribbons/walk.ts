/**
 * Walking along links by two keys: back, to what a thing came from, and forward, to what came of it. Pure. Where several
 * links lead on, the first is taken; whoever returns by the other key and sets out again takes the next, so that two keys
 * reach them all.
 */
import type { Link, LinkNode, LinkState, Range } from '../../shared/lab/model.ts'
import { farEndOf, type TraceDirection } from '../../shared/provenance/trace.ts'
import { linksAt, type LinkIndex } from './links.ts'

/** One thing at the other end of one or more links. */
export interface Way {
  readonly node: LinkNode
  readonly ranges: readonly Range[]
}

interface Hop {
  readonly direction: TraceDirection
  /** Where it set out, to come back to. */
  readonly from: Way
  /** What the keyboard was at then; several parts where it was a step. */
  readonly starts: readonly string[]
}

export interface Trail {
  readonly hops: readonly Hop[]
  /** Where the walk has come to; null before the first hop. */
  readonly at: Way | null
  /** What the next hop sets out from while the keyboard stays there: after a return all that was set out from before. */
  readonly starts: readonly string[]
  /** For each start and direction, which of the ways was taken last. */
  readonly taken: ReadonlyMap<string, number>
}

export const noTrail: Trail = { hops: [], at: null, starts: [], taken: new Map() }

export interface Walked {
  readonly trail: Trail
  readonly to: Way
  /** Which of how many ways that was, from 1; null for a way back. */
  readonly which: { readonly place: number; readonly of: number } | null
}

/** What a walk goes by. */
export interface WalkLinks {
  readonly index: LinkIndex
  readonly states: ReadonlyMap<string, LinkState>
}

/**
 * The next hop.
 * @param starts the ids of what the keyboard is at
 * @returns null at the end of the chain
 */
export function walk(
  { index, states }: WalkLinks,
  trail: Trail,
  starts: readonly string[],
  direction: TraceDirection,
): Walked | null {
  const isOnTrail = trail.at !== null && starts.includes(trail.at.node.id)
  const known = isOnTrail ? trail : { ...noTrail, taken: trail.taken, starts }
  const last = known.hops.at(-1)
  if (last && last.direction !== direction) {
    const back = { hops: known.hops.slice(0, -1), at: last.from, starts: last.starts, taken: known.taken }
    return { trail: back, to: last.from, which: null }
  }
  const ways = waysFrom(index, states, known.starts, direction)
  const key = `${direction} ${known.starts.join()}`
  const place = ((known.taken.get(key) ?? -1) + 1) % Math.max(1, ways.length)
  const way = ways[place]
  if (!way) return null
  const { from, to } = way
  const next: Trail = {
    hops: [...known.hops, { direction, from, starts: known.starts }],
    at: to,
    starts: [to.node.id],
    taken: new Map([...known.taken, [key, place]]),
  }
  return { trail: next, to, which: { place: place + 1, of: ways.length } }
}

interface Step {
  readonly from: Way
  readonly to: Way
}

/** The things that links lead to, in the order in which their words stand at the near end; each once, with all its words. */
function waysFrom(
  index: LinkIndex,
  states: WalkLinks['states'],
  starts: readonly string[],
  direction: TraceDirection,
): Step[] {
  const links = starts.flatMap((id) => inOrder(linksAt(index, direction, id), states, direction))
  const byFar = new Map<string, Link[]>()
  for (const link of links) {
    const { id } = farEndOf(link, direction).node
    byFar.set(id, [...(byFar.get(id) ?? []), link])
  }
  const [near, far] = direction === 'back' ? (['newer', 'older'] as const) : (['older', 'newer'] as const)
  return [...byFar.values()].map((group) => ({
    from: wayTo(group, near, states),
    to: wayTo(group, far, states),
  }))
}

function wayTo(links: readonly Link[], end: 'newer' | 'older', states: WalkLinks['states']): Way {
  const { node } = links[0]![end]
  const ranges = links
    .filter((link) => link[end].node.id === node.id)
    .flatMap((link) => states.get(link.id)?.[end].places ?? [])
    .filter((place) => place !== null)
  return { node, ranges }
}

function inOrder(links: readonly Link[], states: WalkLinks['states'], direction: TraceDirection): Link[] {
  const startOf = ({ id }: Link): number => {
    const state = states.get(id)
    const places = (direction === 'back' ? state?.newer : state?.older)?.places ?? []
    return places.find((place) => place !== null)?.start ?? Number.MAX_SAFE_INTEGER
  }
  return [...links].sort((a, b) => startOf(a) - startOf(b) || (a.id < b.id ? -1 : 1))
}
