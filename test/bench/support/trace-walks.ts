/** Traces in a lab of 200,000 links, by what the screen traces with and by a plain walk over arrays in memory. */
import type { Link, LinkNode } from '../../../shared/lab/model.ts'
import { reachOf, type TraceDirection } from '../../../shared/provenance/trace.ts'
import type { OpenLab } from '../../../renderer/db/lab.ts'
import type { Traced } from '../../../renderer/store/traced.ts'
import { graphOf } from '../../../renderer/trace/labGraph.ts'
import { loadTrace } from '../../../renderer/trace/loadTrace.ts'
import { loadStart } from '../../../renderer/trace/starts.ts'
import { makeLinkedLab, type LinkedLab } from './linked-lab.ts'

/** Milliseconds of both, over all traces; the best of some rounds taken by turns. */
export interface Beside {
  readonly ours: number
  readonly plain: number
  /** Links that the plain walk met, over all traces. */
  readonly met: number
}

export interface Measured {
  /** One source, from which three hops lead over all links of the lab: the whole trace as it is shown. */
  readonly hub: Beside
  /** Ordinary sources and parts: the walk in the index alone. */
  readonly walk: Beside
  /** The same, the whole trace as it is shown; beside a plain walk that reads as many records from the same store. */
  readonly shown: Beside
  /** Reading the index for the first time, beside reading all links at once. */
  readonly first: Beside
}

const HOPS = 3
/** So many links are shown at once; the plain walk reads no more records either. */
const SHOWN = 120
const ROUNDS = 7
const TRACES = 50

interface Start {
  readonly traced: Traced
  readonly nodes: readonly LinkNode[]
  readonly direction: TraceDirection
}

/** The links at each thing, in the simplest way there is. */
type Index = ReadonlyMap<string, readonly Link[]>

function indexOf(links: readonly Link[], near: 'newer' | 'older'): Index {
  const index = new Map<string, Link[]>()
  for (const link of links) {
    const { id } = link[near].node
    const known = index.get(id)
    if (known) known.push(link)
    else index.set(id, [link])
  }
  return index
}

interface Indexes {
  readonly back: Index
  readonly forward: Index
}

const toIndexes = (links: readonly Link[]): Indexes => ({
  ...{ back: indexOf(links, 'newer'), forward: indexOf(links, 'older') },
})

/** The plain walk: each thing once, level by level. */
function walkPlainly(indexes: Indexes, { nodes, direction }: Start): Link[] {
  const far = direction === 'back' ? 'older' : 'newer'
  const met = new Set<string>(nodes.map(({ id }) => id))
  const links: Link[] = []
  let level = [...met]
  for (let hop = 0; hop < HOPS; hop++) {
    const next: string[] = []
    for (const id of level)
      for (const link of indexes[direction].get(id) ?? []) {
        links.push(link)
        const node = link[far].node.id
        if (met.has(node)) continue
        met.add(node)
        next.push(node)
      }
    level = next
  }
  return links
}

async function timed(run: () => unknown): Promise<number> {
  const start = performance.now()
  await run()
  return performance.now() - start
}

/** By turns, so that whatever disturbs disturbs both. */
async function beside(ours: () => unknown, plain: () => unknown): Promise<Omit<Beside, 'met'>> {
  const times: { ours: number; plain: number }[] = []
  for (let round = 0; round < ROUNDS; round++)
    times.push({ ours: await timed(ours), plain: await timed(plain) })
  return {
    ours: Math.min(...times.map((time) => time.ours)),
    plain: Math.min(...times.map((time) => time.plain)),
  }
}

/** @throws Error where the two do not find the same: then there is nothing to compare */
function check(what: string, ours: unknown, plain: unknown): void {
  if (ours !== plain) throw new Error(`${what}: ${String(ours)} where plainly ${String(plain)}`)
}

async function measureHub(): Promise<Beside> {
  const { lab, links, sources } = await makeLinkedLab(1)
  const traced = { kind: 'source', id: sources[0]! } as const
  const { nodes } = await loadStart(lab, traced)
  const start: Start = { traced, nodes, direction: 'forward' }
  const indexes = toIndexes(links)
  await graphOf(lab).upToDate()
  const met = walkPlainly(indexes, start).length
  const { hops, left } = await loadTrace(lab, traced, 'forward')
  check('links of the lab', met, links.length)
  check('links that are shown', hops.length, SHOWN)
  if (left.size === 0) throw new Error('nothing is said of the rest')
  const times = await beside(
    () => loadTrace(lab, traced, 'forward'),
    () => walkPlainly(indexes, start),
  )
  lab.close()
  await lab.destroy()
  return { ...times, met }
}

async function ordinaryStarts({ lab, sources, further }: LinkedLab): Promise<Start[]> {
  const starts: Start[] = []
  for (let i = 0; i < TRACES; i++) {
    const source = { kind: 'source', id: sources[(i * 37) % sources.length]! } as const
    const part = { kind: 'part', id: further[(i * 797) % further.length]! } as const
    starts.push({ traced: source, nodes: (await loadStart(lab, source)).nodes, direction: 'forward' })
    starts.push({ traced: part, nodes: [part], direction: 'back' })
  }
  return starts
}

async function measureOrdinary(): Promise<Pick<Measured, 'walk' | 'shown' | 'first'>> {
  const linked = await makeLinkedLab(2000)
  const { lab, links } = linked
  const starts = await ordinaryStarts(linked)
  const first = await measureFirst(lab, links.length)
  const indexes = toIndexes(links)
  const graph = await graphOf(lab).upToDate()
  const walkOurs = ({ nodes, direction }: Start): number =>
    reachOf((node) => graph.near(node, direction), nodes, direction, HOPS).links.length
  let met = 0
  for (const start of starts) {
    const plain = walkPlainly(indexes, start).length
    check('links within reach', walkOurs(start), plain)
    met += plain
  }
  const walk = await beside(
    () => starts.forEach(walkOurs),
    () => starts.forEach((start) => walkPlainly(indexes, start)),
  )
  const shown = await beside(
    async () => {
      for (const { traced, direction } of starts) await loadTrace(lab, traced, direction)
    },
    async () => {
      for (const start of starts) await readPlainly(lab, walkPlainly(indexes, start), start)
    },
  )
  lab.close()
  return { walk: { ...walk, met }, shown: { ...shown, met }, first }
}

/** The records of the nearest links and of what they join, by their keys. No names are made of them. */
async function readPlainly({ queries }: OpenLab, links: readonly Link[], { traced }: Start): Promise<void> {
  const shown = links.slice(0, SHOWN)
  const nodes = [{ ...traced }, ...shown.flatMap(({ newer, older }) => [newer.node, older.node])]
  const of = (kind: string): string[] => [
    ...new Set(nodes.filter((node) => node.kind === kind).map(({ id }) => id as string)),
  ]
  await queries.trace.links(shown.map(({ id }) => id))
  await queries.trace.entries(of('entry'))
  await queries.trace.parts(of('part'))
  await queries.trace.captureHeads(of('capture'))
  await queries.trace.texts([...of('entry'), ...of('part')] as never[])
}

async function measureFirst(lab: OpenLab, count: number): Promise<Beside> {
  let met = 0
  const plain = await timed(async () => {
    met = (await lab.queries.trace.linksBehind('', Infinity)).length
  })
  let size = 0
  const ours = await timed(async () => {
    size = (await graphOf(lab).upToDate()).size
  })
  check('links in the index', size, count)
  check('links read', met, count)
  return { ours, plain, met }
}

async function measureTraces(): Promise<Measured> {
  const hub = await measureHub()
  return { hub, ...(await measureOrdinary()) }
}

Object.assign(globalThis, { measureTraces })
