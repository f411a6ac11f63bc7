/** Lays a mind map out by our own rule in place of the library's, which needs a screen and moves things by chance. */
import type { LayoutLoaderDefinition } from 'mermaid'
import type { Point } from '../../../shared/sketch/matrix.ts'
import { placesOf, type Branch } from '../../../shared/sketch/tree.ts'

type Layout = Awaited<ReturnType<LayoutLoaderDefinition['loader']>>
type Arguments = Parameters<Layout['render']>
type Given = Arguments[0]
type GivenNode = Given['nodes'][number]

/** The library asks for a layout of this name when it draws a mind map. */
export const mindMapLayout: LayoutLoaderDefinition = {
  name: 'cose-bilkent',
  loader: () => Promise.resolve({ render }),
}

async function render(...[given, svg, helpers]: Arguments): Promise<void> {
  const around = svg.select('g')
  const edges = around.insert('g').attr('class', 'edgePaths')
  const nodes = around.insert('g').attr('class', 'nodes')
  const drawn = new Map<string, GivenNode>()
  for (const node of given.nodes) {
    const element = await helpers.insertNode(nodes, node as never, { config: given.config, dir: 'LR' })
    centreWords(element)
    const { width, height } = (element.node() as SVGGElement).getBBox()
    drawn.set(node.id, Object.assign(node, { width, height }))
    ;(node as { element?: unknown }).element = element
  }
  const root = toBranch(given, drawn)
  if (!root) return
  const places = placesOf(root)
  for (const node of given.nodes) {
    const place = places.get(node.id) ?? { x: 0, y: 0 }
    Object.assign(node, place)
    ;(node as unknown as { element: { attr(name: string, value: string): void } }).element.attr(
      'transform',
      `translate(${place.x}, ${place.y})`,
    )
  }
  for (const edge of given.edges) {
    const [start, end] = [drawn.get(edge.start ?? ''), drawn.get(edge.end ?? '')]
    if (!start || !end) continue
    const line = { ...edge, curve: 'bumpX', points: pointsBetween(start, end) }
    helpers.insertEdge(edges, line, new Map(), given.type, start, end, given.diagramId, true)
  }
}

/** The part of a d3 selection that is used here. */
interface Selected {
  select(selector: string): Selected
  selectAll(selector: string): Selected
  attr(name: string): string | null
  attr(name: string, value: string): Selected
  empty(): boolean
}

/** The library begins all lines of a label at one edge and moves the whole to the middle; here each line is in the middle. */
function centreWords(element: Selected): void {
  const label = element.select('.label')
  const transform = label.empty() ? null : label.attr('transform')
  if (transform === null) return
  label.attr('transform', transform.replace(/translate\([^,]*,/u, 'translate(0,'))
  label.selectAll('text, .text-outer-tspan').attr('text-anchor', 'middle')
}

function toBranch(given: Given, drawn: ReadonlyMap<string, GivenNode>): Branch | null {
  const children = new Map<string, string[]>()
  const hanging = new Set<string>()
  for (const { start, end } of given.edges) {
    if (start === undefined || end === undefined) continue
    children.set(start, [...(children.get(start) ?? []), end])
    hanging.add(end)
  }
  const branch = (id: string): Branch => ({
    id,
    width: drawn.get(id)?.width ?? 0,
    height: drawn.get(id)?.height ?? 0,
    children: (children.get(id) ?? []).map(branch),
  })
  const root = given.nodes.find(({ id }) => !hanging.has(id))
  return root ? branch(root.id) : null
}

/** From the side of one part to the side of the other. */
function pointsBetween(start: GivenNode, end: GivenNode): Point[] {
  const direction = (end.x ?? 0) < (start.x ?? 0) ? -1 : 1
  const side = (node: GivenNode, towards: number): Point => ({
    x: (node.x ?? 0) + (towards * (node.width ?? 0)) / 2,
    y: node.y ?? 0,
  })
  return [side(start, direction), side(end, -direction)]
}
