/** Where the signs of a map stand: in three layers, placed so that few lines cross. By dagre (MIT, after Gansner et al. 1993). */
import { Graph, layout, type EdgeLabel, type GraphLabel, type NodeLabel } from '@dagrejs/dagre'
import { bands, type MapEdge, type MapGraph, type MapNode } from './model.ts'

/** In units of the picture; at its natural size one is a CSS pixel. */
export const SIGN_WIDTH = 286
export const GAP = 150
export const MARGIN = 16
/** The names of the bands stand above the signs. */
export const HEAD = 40
const ROW_GAP = 6
const LEAST_SIZE = 10
const MOST_SIZE = 26

export interface PlacedNode extends MapNode {
  /** Its left upper corner. */
  readonly x: number
  readonly y: number
  readonly height: number
  /** Of its shape, across: the area grows with the number of its links. */
  readonly size: number
}

export interface PlacedMap {
  /** Band by band, each from top to bottom. */
  readonly nodes: readonly PlacedNode[]
  readonly edges: readonly MapEdge[]
  readonly width: number
  readonly height: number
}

/** The width of a shape whose area says how often a thing is used. @param most the greatest number of uses on the map */
export function sizeOf(uses: number, most: number): number {
  const share = most === 0 ? 0 : uses / most
  return Math.sqrt(LEAST_SIZE ** 2 + share * (MOST_SIZE ** 2 - LEAST_SIZE ** 2))
}

/**
 * The places of all signs. Each band is a layer; journal and procedure keep their order (time, steps), sources are moved to
 * where few lines cross. The same graph gives the same places.
 */
export function placeMap({ nodes, edges }: MapGraph): PlacedMap {
  const most = Math.max(0, ...nodes.map(({ uses }) => uses))
  const sized = nodes.map((node) => ({ ...node, size: sizeOf(node.uses, most) }))
  const graph = layeredGraph(sized, edges)
  layout(graph, { constraints: keptOrder(nodes) })
  const placed = bands.flatMap((band, at) =>
    inColumn(
      sized
        .filter((node) => node.band === band)
        .map((node) => ({ node, middle: graph.node(node.key).y ?? 0 })),
      band === 'sources',
      MARGIN + at * (SIGN_WIDTH + GAP),
    ),
  )
  const foot = Math.max(HEAD, ...placed.map(({ y, height }) => y + height))
  return { nodes: placed, edges, width: 3 * SIGN_WIDTH + 2 * GAP + 2 * MARGIN, height: foot + MARGIN }
}

type Sized = MapNode & { readonly size: number }
const heightOf = ({ size }: Sized): number => Math.max(26, Math.ceil(size) + 6)

function layeredGraph(nodes: readonly Sized[], edges: readonly MapEdge[]) {
  const graph = new Graph<GraphLabel, NodeLabel, EdgeLabel>()
  const rank = new Map(nodes.map(({ key, band }) => [key, bands.indexOf(band)]))
  // Two ranks from band to band: the library keeps one between for the labels of edges. Its types lack this setting.
  const ranker = (own: typeof graph): void => {
    for (const key of own.nodes()) own.node(key).rank = 2 * (rank.get(key) ?? 0)
  }
  graph.setGraph({ rankdir: 'LR', ranksep: GAP, nodesep: ROW_GAP, ranker } as unknown as GraphLabel)
  for (const node of nodes) graph.setNode(node.key, { width: SIGN_WIDTH, height: heightOf(node) })
  // What joins things of one band says nothing of the layers.
  for (const { older, newer, links } of edges) {
    const [from, to] = [rank.get(older)!, rank.get(newer)!]
    if (from !== to)
      graph.setEdge(...(from < to ? ([older, newer] as const) : ([newer, older] as const)), { weight: links })
  }
  return graph
}

/** Each sign of the journal and of the procedure stands before the next one. */
function keptOrder(nodes: readonly MapNode[]) {
  return bands.slice(1).flatMap((band) => {
    const own = nodes.filter((node) => node.band === band)
    return own.slice(1).map(({ key }, i) => ({ left: own[i]!.key, right: key }))
  })
}

interface Wanted {
  readonly node: Sized
  readonly middle: number
}

/**
 * A band's signs under each other, near to where the layout wants them and without overlap. Where their order is free it is
 * the layout's.
 */
function inColumn(wanted: readonly Wanted[], isFree: boolean, x: number): PlacedNode[] {
  const order = isFree ? [...wanted].sort((a, b) => a.middle - b.middle) : wanted
  let foot = HEAD
  return order.map(({ node, middle }) => {
    const height = heightOf(node)
    const y = Math.max(foot, Math.min(HEAD + middle - height / 2, foot + 20))
    foot = y + height + ROW_GAP
    return { ...node, x, y, height }
  })
}
