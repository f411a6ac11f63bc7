/** Reads what a trace shows: the links that go on with the same words, and what the things at their ends are called. */
import type { LinkNode } from '../../shared/lab/model.ts'
import { compareMoments } from '../../shared/lab/moment.ts'
import { endPlaces, followWords } from '../../shared/provenance/follow.ts'
import type { Joined, Near } from '../../shared/provenance/graph.ts'
import {
  buildTrace,
  flattenTrace,
  nearEndOf,
  nearIn,
  reachOf,
  type LinkRecords,
  type TraceDirection,
  type TraceHop,
} from '../../shared/provenance/trace.ts'
import type { OpenLab } from '../db/lab.ts'
import type { Traced } from '../store/traced.ts'
import { graphOf } from './labGraph.ts'
import { loadLabels, type Labels } from './labels.ts'
import { loadLinks } from './loadLinks.ts'
import { loadStart, type TraceStart } from './starts.ts'

export { loadLabel, type NodeLabel } from './labels.ts'

export interface LoadedTrace {
  readonly direction: TraceDirection
  readonly start: TraceStart
  readonly hops: readonly TraceHop[]
  /** By the node's id: links at it that do not go on with the words by which the trace came there. */
  readonly beside: ReadonlyMap<string, readonly TraceHop[]>
  /** By the node's id: how many links at it were not read, since there are more than are shown at once. */
  readonly left: ReadonlyMap<string, number>
  readonly labels: Labels
}

/** So many links are shown at once, the nearest ones; more on demand. */
export const MOST_SHOWN = 120

/**
 * The trace of something in one direction.
 * @param most links that are read, the nearest to the start
 */
export async function loadTrace(
  lab: OpenLab,
  traced: Traced,
  direction: TraceDirection,
  most = MOST_SHOWN,
): Promise<LoadedTrace> {
  const start = await loadStart(lab, traced)
  const near = await loadNear(lab, start.nodes, direction)
  const { links: reached } = reachOf(near, start.nodes, direction, Infinity, most)
  const records = upTo(start, await loadRecords(lab, reached), direction)
  const hops = followed(records, start, direction)
  const beside = besideOf(records, hops, start, direction)
  const left = leftOf(records, near, start.nodes, direction)
  const shown = [...flattenTrace(hops), ...[...beside.values()].flat()]
  const nodes = shown.flatMap(({ link }) => [link.newer.node, link.older.node])
  return { ...{ direction, start, hops, beside, left }, labels: await loadLabels(lab, nodes) }
}

async function loadRecords(lab: OpenLab, reached: readonly Joined[]): Promise<LinkRecords> {
  const { links, states } = await lab.queries.trace.links(reached.map(({ id }) => id))
  return {
    links: new Map(links.map((link) => [link.id, link])),
    states: new Map(states.map((state) => [state.link, state])),
  }
}

/** What a version came from stood there when it was marked; its parts may have been carried to since. */
function upTo({ nodes, until }: TraceStart, records: LinkRecords, direction: TraceDirection): LinkRecords {
  if (until === undefined || direction === 'forward') return records
  const own = new Set(nodes.map(({ id }) => id as string))
  const links = [...records.links].filter(
    ([, { newer, made }]) => !own.has(newer.node.id) || compareMoments(made, until) <= 0,
  )
  return { ...records, links: new Map(links) }
}

/** The tree of the links that go on with the words that are traced. */
function followed(
  { links, states }: LinkRecords,
  { nodes, spots }: TraceStart,
  direction: TraceDirection,
): readonly TraceHop[] {
  const near = nearIn(links.values(), direction)
  const own = followWords({ near, placesOf: (id) => endPlaces(states.get(id)) }, spots, direction)
  return buildTrace(
    { links: new Map(own.map((link) => [link.id, link])), states },
    nodes,
    direction,
    Infinity,
  )
}

function besideOf(
  { links, states }: LinkRecords,
  hops: readonly TraceHop[],
  { nodes }: TraceStart,
  direction: TraceDirection,
): Map<string, TraceHop[]> {
  const flat = flattenTrace(hops)
  const own = new Set(flat.map(({ link }) => link.id))
  const met = new Set([...nodes, ...flat.map(({ node }) => node)].map(({ id }) => id as string))
  const near = nearIn(links.values(), direction)
  const beside = new Map<string, TraceHop[]>()
  for (const id of met) {
    const others = near(id).filter((link) => !own.has(link.id))
    const alone = others.flatMap((link) =>
      buildTrace({ links: new Map([[link.id, link]]), states }, [nearEndOf(link, direction).node], direction),
    )
    if (alone.length > 0) beside.set(id, alone)
  }
  return beside
}

/** @param near all links of the lab, those that were not read too */
function leftOf(
  { links }: LinkRecords,
  near: Near<Joined>,
  starts: readonly LinkNode[],
  direction: TraceDirection,
): Map<string, number> {
  const read = nearIn(links.values(), direction)
  const met = new Set([
    ...starts.map(({ id }) => id as string),
    ...[...links.values()].flatMap(({ newer, older }) => [newer.node.id, older.node.id]),
  ])
  const left = new Map<string, number>()
  for (const id of met) {
    const count = near(id).length - read(id).length
    if (count > 0) left.set(id, count)
  }
  return left
}

/** So many links are read one by one while the graph is not at hand; with more, waiting for it is quicker. */
const FEW = 500

/** The links at each thing: out of the graph, or read level by level where that is not at hand yet and they are few. */
async function loadNear(
  lab: OpenLab,
  starts: readonly LinkNode[],
  direction: TraceDirection,
): Promise<Near<Joined>> {
  const graph = graphOf(lab)
  const reading = graph.upToDate()
  if (!graph.isRead) {
    const { links } = await loadLinks(lab.queries, starts, direction, FEW)
    if (links.size <= FEW) {
      // It is read for what comes next; who asks then is told where it cannot be.
      reading.catch(() => undefined)
      return nearIn(links.values(), direction)
    }
  }
  const read = await reading
  return (node) => read.near(node, direction)
}
