/** Folding: so many things that nobody could read them are drawn as groups, which can be opened one by one. */
import { nameOfThing } from './names.ts'
import { bands, type MapEdge, type MapGraph, type MapMatter, type MapNode, type MapThing } from './model.ts'

/** A band shows at most so many signs until a group of it is opened, and so does an opened group: a month has 31 days. */
export const MOST_SIGNS = 31

/** One sign to be: a thing alone, or things under one name. */
interface Bundle {
  readonly key: string
  readonly name: string
  readonly things: readonly MapThing[]
  /** How many levels of groups are used up; one more for each cut into runs. */
  readonly level: number
  readonly parent: string | null
}

/**
 * The signs of a map and what joins them. Each band is folded at the finest level that leaves at most `most` signs: things,
 * then the groups they lie in, from the narrowest to the widest, and where even those are too many, runs of things that follow
 * each other. An opened group is replaced by what lies in it, folded by the same rule. Nothing is ever left out.
 * @param open keys of the groups that are opened
 */
export function foldMatter(matter: MapMatter, open: ReadonlySet<string>, most = MOST_SIGNS): MapGraph {
  const bundles = bands.flatMap((band) => {
    const things = matter.things.filter((thing) => thing.band === band)
    return opened(split(things, 0, band, null, most), open, most)
  })
  const signs = new Map<string, string>()
  for (const { key, things } of bundles) for (const thing of things) signs.set(thing.key, key)
  const counts = countUses(matter)
  return { nodes: bundles.map((bundle) => toNode(bundle, counts)), edges: toEdges(matter, signs) }
}

function opened(bundles: readonly Bundle[], open: ReadonlySet<string>, most: number): Bundle[] {
  return bundles.flatMap((bundle) => {
    if (bundle.things.length < 2 || !open.has(bundle.key)) return [bundle]
    return opened(split(bundle.things, bundle.level, bundle.key, bundle.key, most), open, most)
  })
}

function split(
  things: readonly MapThing[],
  level: number,
  path: string,
  parent: string | null,
  most: number,
): Bundle[] {
  if (things.length <= most) return things.map((thing) => alone(thing, parent))
  const deepest = Math.max(...things.map(({ groups }) => groups.length))
  for (let depth = deepest; depth > level; depth--) {
    const groups = groupAt(things, depth, parent)
    if (groups.length > 1 && groups.length <= most) return groups
  }
  return runs(things, Math.max(level, deepest), path, parent, most)
}

const alone = (thing: MapThing, parent: string | null): Bundle => ({
  ...{ key: thing.key, name: '', things: [thing], level: thing.groups.length, parent },
})

function groupAt(things: readonly MapThing[], depth: number, parent: string | null): Bundle[] {
  const found = new Map<string, { name: string; things: MapThing[] }>()
  for (const thing of things) {
    const group = thing.groups[Math.min(depth, thing.groups.length) - 1] ?? thing
    const known = found.get(group.key)
    if (known) known.things.push(thing)
    else found.set(group.key, { name: 'name' in group ? group.name : '', things: [thing] })
  }
  return [...found].map(([key, { name, things: own }]) =>
    own.length === 1 ? alone(own[0]!, parent) : { key, name, things: own, level: depth, parent },
  )
}

/** Things that follow each other, in as many runs of one length as a band shows at most. */
function runs(
  things: readonly MapThing[],
  level: number,
  path: string,
  parent: string | null,
  most: number,
): Bundle[] {
  const length = Math.max(2, Math.ceil(things.length / most))
  const found: Bundle[] = []
  for (let start = 0; start < things.length; start += length) {
    const own = things.slice(start, start + length)
    const name = `${start + 1} to ${start + own.length} of ${things.length}`
    found.push(
      own.length === 1
        ? alone(own[0]!, parent)
        : { key: `${path} ${start + 1}-${start + own.length}`, name, things: own, level, parent },
    )
  }
  return found
}

interface Uses {
  readonly links: number
  readonly loose: number
}

function countUses({ relations }: MapMatter): ReadonlyMap<string, Uses> {
  const counts = new Map<string, { links: number; loose: number }>()
  const add = (key: string, isLoose: boolean): void => {
    const known = counts.get(key) ?? { links: 0, loose: 0 }
    counts.set(key, { links: known.links + 1, loose: known.loose + Number(isLoose) })
  }
  for (const { newer, older, isLoose } of relations) {
    add(newer, isLoose)
    add(older, isLoose)
  }
  return counts
}

function toNode({ key, name, things, parent }: Bundle, counts: ReadonlyMap<string, Uses>): MapNode {
  const uses = things.map((thing) => counts.get(thing.key) ?? { links: 0, loose: 0 })
  const [first] = things as [MapThing]
  const isGroup = things.length > 1
  return {
    key,
    band: first.band,
    kind: isGroup ? 'group' : first.kind,
    name: isGroup ? name : nameOfThing(first),
    node: isGroup ? null : first.node,
    members: things.map((thing) => thing.key),
    uses: uses.reduce((sum, { links }) => sum + links, 0),
    loose: uses.reduce((sum, { loose }) => sum + loose, 0),
    unused: uses.filter(({ links }) => links === 0).length,
    isWithdrawn: things.every(({ isWithdrawn }) => isWithdrawn),
    parent,
  }
}

/** What joins two signs, once; what joins things of one group stays inside it. */
function toEdges({ relations }: MapMatter, signs: ReadonlyMap<string, string>): MapEdge[] {
  const found = new Map<string, MapEdge>()
  for (const relation of relations) {
    const [newer, older] = [signs.get(relation.newer), signs.get(relation.older)]
    if (newer === undefined || older === undefined || newer === older) continue
    const pair = JSON.stringify([older, newer])
    const { links, loose } = found.get(pair) ?? { links: 0, loose: 0 }
    found.set(pair, { newer, older, links: links + 1, loose: loose + Number(relation.isLoose) })
  }
  return [...found.values()]
}
