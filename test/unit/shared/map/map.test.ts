import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { LinkId } from '../../../../shared/lab/ids.ts'
import type { LinkNode } from '../../../../shared/lab/model.ts'
import { filterMatter, reach } from '../../../../shared/map/filter.ts'
import { foldMatter, MOST_SIGNS } from '../../../../shared/map/fold.ts'
import { placeMap, sizeOf } from '../../../../shared/map/layout.ts'
import { chainOf } from '../../../../shared/map/map.ts'
import { bands, noFilter, type MapMatter, type MapRelation } from '../../../../shared/map/model.ts'
import { farEndOf, nearIn, reachOf } from '../../../../shared/provenance/trace.ts'
import { longJournal, matters, thing } from './generated.ts'

const none: ReadonlySet<string> = new Set()

/** Everything within reach, found by going over all relations again and again. */
function naiveReach(relations: readonly MapRelation[], start: string, way: 'back' | 'forward'): Set<string> {
  const met = new Set([start])
  for (let before = -1; before !== met.size;) {
    before = met.size
    for (const { newer, older } of relations)
      if (met.has(way === 'back' ? newer : older)) met.add(way === 'back' ? older : newer)
  }
  return met
}

describe('the reach of a thing', () => {
  it('is what going over all relations finds, and what the trace walks along', () => {
    fc.assert(
      fc.property(
        matters,
        fc.nat(),
        fc.constantFrom('back' as const, 'forward' as const),
        (matter, n, way) => {
          const start = matter.things[n % Math.max(1, matter.things.length)]?.key
          if (start === undefined) return
          const met = reach(matter.relations, [start], way)
          expect([...met].sort()).toEqual([...naiveReach(matter.relations, start, way)].sort())
          const toNode = (id: string): LinkNode => ({ kind: 'entry', id }) as LinkNode
          const links = matter.relations.map(({ newer, older }, i) => ({
            ...{ id: String(i) as LinkId, newer: { node: toNode(newer) }, older: { node: toNode(older) } },
          }))
          const traced = reachOf(nearIn(links, way), [toNode(start)], way, Infinity).links
          expect(
            [...new Set([start, ...traced.map((link) => farEndOf(link, way).node.id as string)])].sort(),
          ).toEqual([...met].sort())
        },
      ),
    )
  })
})

describe('folding', () => {
  it('leaves nothing out, draws nothing twice, keeps the order, and shows no more signs than it says', () => {
    fc.assert(
      fc.property(matters, fc.integer({ min: 2, max: 12 }), (matter, most) => {
        const { nodes } = foldMatter(matter, none, most)
        expect(nodes.flatMap(({ members }) => members).sort()).toEqual(
          matter.things.map(({ key }) => key).sort(),
        )
        expect(new Set(nodes.map(({ key }) => key)).size).toBe(nodes.length)
        for (const band of bands)
          expect(nodes.filter((node) => node.band === band).length).toBeLessThanOrEqual(most)
        const at = new Map(matter.things.map(({ key }, i) => [key, i]))
        const firsts = nodes.map(({ members }) => at.get(members[0]!)!)
        expect(firsts).toEqual([...firsts].sort((a, b) => a - b))
      }),
    )
  })

  it('opened everywhere, shows each thing alone', () => {
    fc.assert(
      fc.property(matters, (matter) => {
        let open = new Set<string>()
        for (let round = 0; round < 12; round++) {
          const groups = foldMatter(matter, open, 4).nodes.filter(({ kind }) => kind === 'group')
          if (groups.length === 0) break
          open = new Set([...open, ...groups.map(({ key }) => key)])
        }
        expect(
          foldMatter(matter, open, 4)
            .nodes.map(({ key }) => key)
            .sort(),
        ).toEqual(matter.things.map(({ key }) => key).sort())
      }),
    )
  })

  it('counts every link between two signs once', () => {
    fc.assert(
      fc.property(matters, (matter) => {
        const { nodes, edges } = foldMatter(matter, none, 5)
        const signOf = new Map(
          nodes.flatMap(({ key, members }) => members.map((member) => [member, key] as const)),
        )
        const across = matter.relations.filter(({ newer, older }) => signOf.get(newer) !== signOf.get(older))
        expect(edges.reduce((sum, { links }) => sum + links, 0)).toBe(across.length)
        expect(edges.reduce((sum, { loose }) => sum + loose, 0)).toBe(
          across.filter(({ isLoose }) => isLoose).length,
        )
        expect(nodes.reduce((sum, { uses }) => sum + uses, 0)).toBe(2 * matter.relations.length)
      }),
    )
  })

  it('keeps 10,000 entries readable, whichever group is opened', () => {
    const things = longJournal(10_000)
    const matter: MapMatter = { things, relations: [], outside: 0 }
    const closed = foldMatter(matter, none)
    expect(closed.nodes.map(({ name }) => name)).toEqual(['2020', '2021', '2022', '2023', '2024'])
    let open = new Set<string>()
    for (let depth = 0; depth < 5; depth++) {
      const group = foldMatter(matter, open).nodes.findLast(({ kind }) => kind === 'group')
      if (!group) break
      open = new Set([...open, group.key])
      const inside = foldMatter(matter, open).nodes.filter(({ parent }) => parent === group.key)
      expect(inside.length).toBeGreaterThan(1)
      expect(inside.length).toBeLessThanOrEqual(MOST_SIGNS)
    }
  })

  it('opens a full month into its days', () => {
    const things = Array.from({ length: 372 }, (_, i) => {
      const day = `2026-01-${String(1 + Math.floor(i / 12)).padStart(2, '0')}`
      return thing('journal', i, ['2026', '2026-01', day])
    })
    const { nodes } = foldMatter({ things, relations: [], outside: 0 }, none)
    expect(nodes.map(({ name }) => name.slice(-2))).toEqual(
      Array.from({ length: 31 }, (_, i) => String(i + 1).padStart(2, '0')),
    )
  })

  it('cuts 10,000 entries of one day into runs that can be opened down to the single one', () => {
    const things = Array.from({ length: 10_000 }, (_, i) =>
      thing('journal', i, ['2026', '2026-03', '2026-03-14']),
    )
    const matter: MapMatter = { things, relations: [], outside: 0 }
    let open = new Set<string>()
    for (let depth = 0; depth < 6; depth++) {
      const group = foldMatter(matter, open).nodes.find(({ kind }) => kind === 'group')
      const first = foldMatter(matter, open).nodes[0]!
      if (first.kind !== 'group' || !group) break
      open = new Set([...open, first.key])
    }
    expect(foldMatter(matter, open).nodes[0]).toMatchObject({ kind: 'action', members: ['j0'] })
  })
})

describe('a filter', () => {
  const matter: MapMatter = {
    things: [
      thing('sources', 1, [], { day: '2026-03-01', tags: ['disk'] }),
      thing('sources', 2, [], { day: '2026-03-09' }),
      thing('journal', 1, [], { day: '2026-03-02' }),
      thing('journal', 2, [], { day: '2026-03-10', tags: ['disk'] }),
      thing('procedure', 1, [], { procedure: 'a' }),
      thing('procedure', 2, [], { procedure: 'b' }),
    ],
    relations: [
      { newer: 'j1', older: 's1', isLoose: false },
      { newer: 'p1', older: 'j1', isLoose: false },
      { newer: 'j2', older: 's2', isLoose: true },
      { newer: 'p2', older: 'j2', isLoose: false },
    ],
    outside: 0,
  }
  const keys = (filter: Partial<typeof noFilter>): string[] =>
    filterMatter(matter, { ...noFilter, ...filter }).things.map(({ key }) => key)

  it('of days keeps their sources and entries and the steps that rest on them', () => {
    expect(keys({ from: '2026-03-02', to: '2026-03-09' })).toEqual(['s2', 'j1', 'p1', 'p2'])
    expect(keys({ from: '2026-03-10' })).toEqual(['j2', 'p2'])
  })
  it('of a tag keeps what carries it and the steps that rest on that', () => {
    expect(keys({ tag: 'disk' })).toEqual(['s1', 'j2', 'p1', 'p2'])
  })
  it('of a procedure keeps its steps and what they rest on', () => {
    expect(keys({ procedure: 'a' })).toEqual(['s1', 'j1', 'p1'])
  })
  it('of several wants all of them', () => {
    expect(keys({ procedure: 'b', tag: 'disk' })).toEqual(['j2', 'p2'])
  })
  it('keeps relations only where both ends stand', () => {
    fc.assert(
      fc.property(matters, (any) => {
        const left = filterMatter(any, { ...noFilter, tag: 'even' })
        const kept = new Set(left.things.map(({ key }) => key))
        expect(left.relations).toEqual(
          any.relations.filter(({ newer, older }) => kept.has(newer) && kept.has(older)),
        )
      }),
    )
  })
})

describe('the chain of a sign', () => {
  it('holds the signs of all its things’ reach and no other, folded or not', () => {
    fc.assert(
      fc.property(matters, fc.nat(), fc.constantFrom(3, 100), (matter, n, most) => {
        const graph = foldMatter(matter, none, most)
        const chosen = graph.nodes[n % Math.max(1, graph.nodes.length)]
        if (!chosen) return
        const met = new Set(
          chosen.members.flatMap((key) => [
            ...naiveReach(matter.relations, key, 'back'),
            ...naiveReach(matter.relations, key, 'forward'),
          ]),
        )
        const wanted = graph.nodes
          .filter(({ members }) => members.some((key) => met.has(key)))
          .map(({ key }) => key)
        expect([...chainOf(matter, graph, chosen.key)!.nodes].sort()).toEqual(wanted.sort())
      }),
    )
  })
})

describe('the places', () => {
  it('are the same each time, keep each band apart and in its order, and overlap nowhere', () => {
    fc.assert(
      fc.property(matters, (matter) => {
        const graph = foldMatter(matter, none)
        const map = placeMap(graph)
        expect(placeMap(structuredClone(graph))).toEqual(map)
        expect(map.nodes.map(({ key }) => key).sort()).toEqual(graph.nodes.map(({ key }) => key).sort())
        for (const band of bands) {
          const own = map.nodes.filter((node) => node.band === band)
          expect(new Set(own.map(({ x }) => x)).size).toBeLessThanOrEqual(1)
          for (const [i, node] of own.slice(1).entries())
            expect(node.y).toBeGreaterThanOrEqual(own[i]!.y + own[i]!.height)
          if (band !== 'sources')
            expect(own.map(({ key }) => key)).toEqual(
              graph.nodes.filter((node) => node.band === band).map(({ key }) => key),
            )
        }
      }),
      { numRuns: 60 },
    )
  })

  it('untangle the sources: joined one to one in reverse, no two lines cross', () => {
    const things = [...Array(9).keys()].flatMap((i) => [thing('sources', i), thing('journal', i)])
    const relations = [...Array(9).keys()].map((i) => ({
      newer: `j${i}`,
      older: `s${8 - i}`,
      isLoose: false,
    }))
    const map = placeMap(foldMatter({ things, relations, outside: 0 }, none))
    const sources = map.nodes.filter(({ band }) => band === 'sources').map(({ key }) => key)
    expect(sources).toEqual([...Array(9).keys()].map((i) => `s${8 - i}`))
  })

  it('give a shape an area that grows evenly with the number of links', () => {
    const areas = [0, 1, 2, 3].map((uses) => sizeOf(uses, 3) ** 2)
    expect(areas[1]! - areas[0]!).toBeCloseTo(areas[3]! - areas[2]!)
    expect(sizeOf(0, 0)).toBeGreaterThan(0)
  })
})
