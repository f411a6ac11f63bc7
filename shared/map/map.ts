/** From a project's records to the map that is shown: filtered, folded, placed, a chain lit up, and said in words. */
import { edgeKey } from './drawing.ts'
import { filterMatter, reach } from './filter.ts'
import { foldMatter } from './fold.ts'
import { placeMap, type PlacedMap } from './layout.ts'
import type { MapFilter, MapGraph, MapMatter } from './model.ts'
import { describeMap } from './names.ts'
import { matterOf, type MapRecords } from './things.ts'

export interface MapWish {
  readonly filter: MapFilter
  /** Keys of the groups that are opened. */
  readonly open: readonly string[]
  /** The sign whose chain is lit up; null for none. */
  readonly chosen: string | null
}

/** Keys of signs and of lines (`edgeKey`). */
export interface LitKeys {
  readonly nodes: readonly string[]
  readonly edges: readonly string[]
}

export interface ShownMap {
  readonly map: PlacedMap
  readonly about: string
  /** null where nothing is chosen, or what was chosen is no longer shown. */
  readonly lit: LitKeys | null
  /** What the filter can ask for: the tags and days of the whole project, its procedures. */
  readonly tags: readonly string[]
  readonly days: { readonly first: string; readonly last: string } | null
  readonly procedures: readonly { readonly key: string; readonly name: string }[]
  /** How many things there are without the filter. */
  readonly all: number
}

export function showMap(records: MapRecords, wish: MapWish): ShownMap {
  const whole = matterOf(records)
  const matter = filterMatter(whole, wish.filter)
  const graph = foldMatter(matter, new Set(wish.open))
  return {
    map: placeMap(graph),
    about: describeMap(matter, graph),
    lit: wish.chosen === null ? null : chainOf(matter, graph, wish.chosen),
    ...offered(whole),
    all: whole.things.length,
  }
}

/**
 * The chain of a sign: what its things came from, and what came of them, at any depth. Walked along the things themselves, so
 * that a group on the way joins nothing that no link joins.
 */
export function chainOf(matter: MapMatter, graph: MapGraph, chosen: string): LitKeys | null {
  const start = graph.nodes.find(({ key }) => key === chosen)
  if (!start) return null
  const ways = (['back', 'forward'] as const).map((way) => reach(matter.relations, start.members, way))
  const signs = new Map(
    graph.nodes.flatMap(({ key, members }) => members.map((member) => [member, key] as const)),
  )
  const nodes = new Set(ways.flatMap((met) => [...met].map((key) => signs.get(key)!)))
  const edges = new Set<string>()
  for (const { newer, older } of matter.relations) {
    const pair = { newer: signs.get(newer)!, older: signs.get(older)! }
    if (pair.newer !== pair.older && ways.some((met) => met.has(newer) && met.has(older)))
      edges.add(edgeKey(pair))
  }
  return { nodes: [...nodes], edges: [...edges] }
}

function offered({ things }: MapMatter): Pick<ShownMap, 'tags' | 'days' | 'procedures'> {
  const days = things.flatMap(({ day }) => (day === null ? [] : [day])).sort()
  const procedures = new Map(
    things.flatMap(({ procedure, groups }) =>
      procedure === null ? [] : [[procedure, groups[0]?.name ?? ''] as const],
    ),
  )
  return {
    tags: [...new Set(things.flatMap(({ tags }) => tags))].sort((a, b) => a.localeCompare(b)),
    days: days.length > 0 ? { first: days[0]!, last: days.at(-1)! } : null,
    procedures: [...procedures].map(([key, name]) => ({ key, name })),
  }
}
