/** Tracing: what a thing came from, and what came of it, hop by hop along the links. */
import type { LinkId } from '../lab/ids.ts'
import type { Link, LinkNode, LinkState } from '../lab/model.ts'

/** Back: to what it came from. Forward: to what came of it. */
export type TraceDirection = 'back' | 'forward'

/** Links and what is true of them now, by the link's id. */
export interface LinkRecords {
  readonly links: ReadonlyMap<string, Link>
  readonly states: ReadonlyMap<LinkId, LinkState>
}

export interface TraceHop {
  readonly link: Link
  /** undefined where the link's state has not been derived yet. */
  readonly state: LinkState | undefined
  /** Where the hop leads. */
  readonly node: LinkNode
  readonly hops: readonly TraceHop[]
  /** Where the hops behind `node` stand: here in `hops`, elsewhere in this trace, or further away than was asked for. */
  readonly continues: 'here' | 'elsewhere' | 'further'
}

/** As many hops as any chain of carries is likely to have; whoever needs more asks from the last one on. */
export const MOST_HOPS = 24

type OpenHop = { -readonly [K in keyof TraceHop]: K extends 'hops' ? OpenHop[] : TraceHop[K] }

/**
 * The tree of hops from a thing. Nearest first: every node is followed at the place nearest to the start and only there,
 * so that each link stands in the tree once and circles end. Links of one node stand in the order in which they were made.
 * @param starts the thing itself; a source together with its captures
 * @param depth at most that many hops in a row, from 1
 */
export function buildTrace(
  { links, states }: LinkRecords,
  starts: readonly LinkNode[],
  direction: TraceDirection,
  depth = MOST_HOPS,
): readonly TraceHop[] {
  const near = groupByNearEnd(links, direction)
  const met = new Set<string>(starts.map(({ id }) => id))
  const first: OpenHop[] = []
  let level: { readonly id: string; readonly hops: OpenHop[] }[] = [...met].map((id) => ({ id, hops: first }))
  let last: OpenHop[] = []
  for (let at = 0; at < depth && level.length > 0; at++) {
    last = []
    for (const { id, hops } of level)
      for (const link of near.get(id) ?? []) {
        const hop = openHop(link, states.get(link.id), direction)
        hops.push(hop)
        if (met.has(hop.node.id)) hop.continues = near.has(hop.node.id) ? 'elsewhere' : 'here'
        else last.push(hop)
        met.add(hop.node.id)
      }
    level = last.map((hop) => ({ id: hop.node.id, hops: hop.hops }))
  }
  for (const hop of last) if (near.has(hop.node.id)) hop.continues = 'further'
  return first
}

function openHop(link: Link, state: LinkState | undefined, direction: TraceDirection): OpenHop {
  return { link, state, node: farEndOf(link, direction).node, hops: [], continues: 'here' }
}

/** The end of a link that a trace comes from. */
export function nearEndOf(link: Link, direction: TraceDirection): Link['newer'] {
  return direction === 'back' ? link.newer : link.older
}

/** The end of a link that a trace goes to. */
export function farEndOf(link: Link, direction: TraceDirection): Link['newer'] {
  return direction === 'back' ? link.older : link.newer
}

function groupByNearEnd(links: ReadonlyMap<string, Link>, direction: TraceDirection): Map<string, Link[]> {
  const groups = new Map<string, Link[]>()
  const inOrder = [...links.values()].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
  for (const link of inOrder) {
    const { id } = nearEndOf(link, direction).node
    const group = groups.get(id)
    if (group) group.push(link)
    else groups.set(id, [link])
  }
  return groups
}

/** All hops of a trace, each before those behind it. */
export function flattenTrace(hops: readonly TraceHop[]): TraceHop[] {
  return hops.flatMap((hop) => [hop, ...flattenTrace(hop.hops)])
}
