/** Tracing: what a thing came from, and what came of it, hop by hop along the links. */
import type { LinkId } from '../lab/ids.ts'
import type { Link, LinkNode, LinkState } from '../lab/model.ts'
import type { Joined, Near, TraceDirection } from './graph.ts'

export type { TraceDirection }

/** Links and what is true of them now, by the link's id. */
export interface LinkRecords {
  readonly links: ReadonlyMap<string, Link>
  readonly states: ReadonlyMap<LinkId, LinkState>
}

/** A link on the way of a walk. */
export interface Hop<L extends Joined> {
  readonly link: L
  /** Where the hop leads. */
  readonly node: LinkNode
  readonly hops: readonly Hop<L>[]
  /** Where the hops behind `node` stand: here in `hops`, elsewhere in this trace, or further away than was asked for. */
  readonly continues: 'here' | 'elsewhere' | 'further'
}

export interface TraceHop extends Hop<Link> {
  /** undefined where the link's state has not been derived yet. */
  readonly state: LinkState | undefined
  readonly hops: readonly TraceHop[]
}

/** As many hops as any chain of carries is likely to have; whoever needs more asks from the last one on. */
export const MOST_HOPS = 24

type OpenHop<L extends Joined> = {
  -readonly [K in keyof Hop<L>]: K extends 'hops' ? OpenHop<L>[] : Hop<L>[K]
}

/**
 * The tree of hops from a thing. Nearest first: every node is followed at the place nearest to the start and only there,
 * so that each link stands in the tree once and circles end. Links of one node stand in the order that `near` gives.
 * @param near the links at a node, in the direction of the walk
 * @param starts the thing itself; a source together with its captures, a step with all its parts
 * @param depth at most that many hops in a row, from 1
 */
export function walkTrace<L extends Joined>(
  near: Near<L>,
  starts: readonly LinkNode[],
  direction: TraceDirection,
  depth = MOST_HOPS,
): readonly Hop<L>[] {
  const met = new Set<string>(starts.map(({ id }) => id))
  const first: OpenHop<L>[] = []
  let level: { readonly id: string; readonly hops: OpenHop<L>[] }[] = [...met].map((id) => ({
    id,
    hops: first,
  }))
  let last: OpenHop<L>[] = []
  for (let at = 0; at < depth && level.length > 0; at++) {
    last = []
    for (const { id, hops } of level)
      for (const link of near(id)) {
        const { node } = farEndOf(link, direction)
        const hop: OpenHop<L> = { link, node, hops: [], continues: 'here' }
        hops.push(hop)
        if (!met.has(node.id)) last.push(hop)
        else if (near(node.id).length > 0) hop.continues = 'elsewhere'
        met.add(node.id)
      }
    level = last.map((hop) => ({ id: hop.node.id, hops: hop.hops }))
  }
  for (const hop of last) if (near(hop.node.id).length > 0) hop.continues = 'further'
  return first
}

/** The tree of hops along links that were read, in the order in which the links were made, with what is true of each. */
export function buildTrace(
  { links, states }: LinkRecords,
  starts: readonly LinkNode[],
  direction: TraceDirection,
  depth = MOST_HOPS,
): readonly TraceHop[] {
  return withRecords(walkTrace(nearIn(links.values(), direction), starts, direction, depth), {
    links,
    states,
  })
}

/** The hops of a walk with their records. A link whose record is gone is left out with all behind it. */
export function withRecords(hops: readonly Hop<Joined>[], records: LinkRecords): readonly TraceHop[] {
  return hops.flatMap((hop): TraceHop[] => {
    const link = records.links.get(hop.link.id)
    if (!link) return []
    return [{ ...hop, link, state: records.states.get(link.id), hops: withRecords(hop.hops, records) }]
  })
}

/** The links at each node, in the order of their ids. */
export function nearIn<L extends Joined>(links: Iterable<L>, direction: TraceDirection): Near<L> {
  const groups = new Map<string, L[]>()
  const inOrder = [...links].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
  for (const link of inOrder) {
    const { id } = nearEndOf(link, direction).node
    const group = groups.get(id)
    if (group) group.push(link)
    else groups.set(id, [link])
  }
  return (node) => groups.get(node) ?? []
}

/** The links that a walk meets. */
export interface Reach<L> {
  /** The nearest to the start first; at the same distance in the order in which they are met. */
  readonly links: readonly L[]
  /** How many there are in all, those beyond `most` too. */
  readonly total: number
}

/**
 * All links within reach of some things, each once.
 * @param depth at most that many hops in a row, from 1
 * @param most so many of the nearest are given; all are counted
 */
export function reachOf<L extends Joined>(
  near: Near<L>,
  starts: readonly LinkNode[],
  direction: TraceDirection,
  depth = MOST_HOPS,
  most = Infinity,
): Reach<L> {
  const met = new Set<string>(starts.map(({ id }) => id))
  const links: L[] = []
  let total = 0
  let level = [...met]
  for (let at = 0; at < depth && level.length > 0; at++) {
    const next: string[] = []
    for (const id of level)
      for (const link of near(id)) {
        total += 1
        if (links.length < most) links.push(link)
        const far = farEndOf(link, direction).node.id
        if (met.has(far)) continue
        met.add(far)
        next.push(far)
      }
    level = next
  }
  return { links, total }
}

/** The end of a link that a trace comes from. */
export function nearEndOf<L extends Joined>(link: L, direction: TraceDirection): L['newer'] {
  return direction === 'back' ? link.newer : link.older
}

/** The end of a link that a trace goes to. */
export function farEndOf<L extends Joined>(link: L, direction: TraceDirection): L['newer'] {
  return direction === 'back' ? link.older : link.newer
}

/** All hops of a trace, each before those behind it. */
export function flattenTrace<H extends { readonly hops: readonly H[] }>(hops: readonly H[]): H[] {
  const flat: H[] = []
  const add = (hop: H): void => {
    flat.push(hop)
    hop.hops.forEach(add)
  }
  hops.forEach(add)
  return flat
}
