/** Where the keys lead on the map: along a band with up and down, along links with left and right. */
import { bands } from '../../shared/map/model.ts'
import type { PlacedMap, PlacedNode } from '../../shared/map/layout.ts'

/** The sign that a key leads to from another one; null where it leads nowhere or is no key of the map. */
export function signAfter(map: PlacedMap, from: string, key: string): string | null {
  const node = map.nodes.find((one) => one.key === from)
  if (!node) return null
  const band = map.nodes.filter((one) => one.band === node.band)
  const at = band.indexOf(node)
  switch (key) {
    case 'ArrowDown':
      return band[at + 1]?.key ?? null
    case 'ArrowUp':
      return band[at - 1]?.key ?? null
    case 'Home':
      return band[0]!.key
    case 'End':
      return band.at(-1)!.key
    case 'ArrowRight':
      return nearest(node, linkedTo(map, from, 'newer'))
    case 'ArrowLeft':
      return nearest(node, linkedTo(map, from, 'older'))
    case 'PageDown':
      return nearest(node, bandBeside(map, node, 1))
    case 'PageUp':
      return nearest(node, bandBeside(map, node, -1))
    default:
      return null
  }
}

/** The signs that a sign's links lead to: what came of it, or what it came from. */
export function linkedTo({ nodes, edges }: PlacedMap, from: string, end: 'newer' | 'older'): PlacedNode[] {
  const start = end === 'newer' ? 'older' : 'newer'
  const keys = new Set(edges.filter((edge) => edge[start] === from).map((edge) => edge[end]))
  return nodes.filter(({ key }) => keys.has(key))
}

/** The next band on that side that has anything. */
function bandBeside({ nodes }: PlacedMap, { band }: PlacedNode, step: 1 | -1): PlacedNode[] {
  for (let at = bands.indexOf(band) + step; at >= 0 && at < bands.length; at += step) {
    const own = nodes.filter((node) => node.band === bands[at])
    if (own.length > 0) return own
  }
  return []
}

const middleOf = ({ y, height }: PlacedNode): number => y + height / 2

/** Another band before one's own, then the nearest in height. */
function nearest(from: PlacedNode, to: readonly PlacedNode[]): string | null {
  const far = (node: PlacedNode): number =>
    Math.abs(middleOf(node) - middleOf(from)) + (node.band === from.band ? 100_000 : 0)
  return [...to].sort((a, b) => far(a) - far(b))[0]?.key ?? null
}
