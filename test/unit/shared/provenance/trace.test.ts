import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Link, LinkNode, LinkState } from '../../../../shared/lab/model.ts'
import type { LinkId } from '../../../../shared/lab/ids.ts'
import {
  buildTrace,
  farEndOf,
  flattenTrace,
  nearEndOf,
  type LinkRecords,
  type TraceDirection,
  type TraceHop,
} from '../../../../shared/provenance/trace.ts'

const node = (id: string): LinkNode => ({ kind: 'entry', id }) as unknown as LinkNode

function linkOf(id: string, newer: string, older: string): Link {
  const end = (at: string) => ({ node: node(at), revision: null, ranges: [] })
  return { id, made: '', way: 'drag', newer: end(newer), older: end(older) } as unknown as Link
}

function recordsOf(pairs: readonly (readonly [string, string])[]): LinkRecords {
  const links = pairs.map(([newer, older], i) => linkOf(`l${String(i).padStart(3, '0')}`, newer, older))
  const states = links.map((link) => [link.id, { link: link.id } as unknown as LinkState] as const)
  return {
    links: new Map(links.map((link) => [link.id as string, link])),
    states: new Map<LinkId, LinkState>(states),
  }
}

const graphs = fc.array(fc.tuple(fc.constantFrom(...'abcdefg'), fc.constantFrom(...'abcdefg')), {
  maxLength: 18,
})
const directions = fc.constantFrom<TraceDirection>('back', 'forward')

/** Distance of every node by walking all paths, round by round; the naive way. */
function distances(
  records: LinkRecords,
  starts: readonly string[],
  direction: TraceDirection,
): Map<string, number> {
  const found = new Map(starts.map((id) => [id, 0]))
  for (let round = 0; round < records.links.size + 1; round++)
    for (const link of records.links.values()) {
      const from = found.get(nearEndOf(link, direction).node.id)
      const to = farEndOf(link, direction).node.id
      if (from !== undefined && (found.get(to) ?? Infinity) > from + 1) found.set(to, from + 1)
    }
  return found
}

function withDepth(hops: readonly TraceHop[], depth = 1): { hop: TraceHop; depth: number }[] {
  return hops.flatMap((hop) => [{ hop, depth }, ...withDepth(hop.hops, depth + 1)])
}

test('a trace holds each link within reach once, at the distance of its near end, and no other', () => {
  fc.assert(
    fc.property(
      graphs,
      fc.uniqueArray(fc.constantFrom(...'abc'), { minLength: 1 }),
      directions,
      fc.integer({ min: 1, max: 6 }),
      (pairs, starts, direction, most) => {
        const records = recordsOf(pairs)
        const far = distances(records, starts, direction)
        const expected = [...records.links.values()].flatMap((link) => {
          const depth = (far.get(nearEndOf(link, direction).node.id) ?? Infinity) + 1
          return depth <= most ? [`${link.id} at ${depth}`] : []
        })
        const hops = withDepth(buildTrace(records, starts.map(node), direction, most))
        expect(hops.map(({ hop, depth }) => `${hop.link.id} at ${depth}`).sort()).toEqual(expected.sort())
      },
    ),
  )
})

test('every hop hangs on the node that its link comes from, and leads to the other end', () => {
  fc.assert(
    fc.property(graphs, directions, (pairs, direction) => {
      const check = (hops: readonly TraceHop[], at: string): void => {
        for (const hop of hops) {
          expect(nearEndOf(hop.link, direction).node.id).toBe(at)
          expect(hop.node).toEqual(farEndOf(hop.link, direction).node)
          expect(hop.state?.link).toBe(hop.link.id)
          check(hop.hops, hop.node.id)
        }
      }
      check(buildTrace(recordsOf(pairs), [node('a')], direction), 'a')
    }),
  )
})

test('a circle ends, and says that it goes on at its other place', () => {
  const [first] = buildTrace(
    recordsOf([
      ['a', 'b'],
      ['b', 'a'],
    ]),
    [node('a')],
    'back',
  )
  expect(first?.hops[0]?.node.id).toBe('a')
  expect(first?.hops[0]?.continues).toBe('elsewhere')
  expect(first?.hops[0]?.hops).toEqual([])
})

test('what two ways lead to is followed at the nearer one', () => {
  const records = recordsOf([
    ['a', 'b'],
    ['b', 'c'],
    ['a', 'c'],
    ['c', 'd'],
  ])
  const hops = buildTrace(records, [node('a')], 'back')
  const toC = flattenTrace(hops).filter((hop) => hop.node.id === 'c')
  expect(toC.map((hop) => [hop.link.newer.node.id, hop.continues, hop.hops.length])).toEqual([
    ['b', 'elsewhere', 0],
    ['a', 'here', 1],
  ])
})

test('a chain that is longer than asked for says that it goes on', () => {
  const records = recordsOf([
    ['a', 'b'],
    ['b', 'c'],
    ['c', 'd'],
  ])
  expect(buildTrace(records, [node('a')], 'back', 2)[0]?.hops[0]?.continues).toBe('further')
  expect(buildTrace(records, [node('a')], 'back', 3)[0]?.hops[0]?.hops[0]?.continues).toBe('here')
})

test('the order of the links in the map does not matter', () => {
  fc.assert(
    fc.property(graphs, directions, (pairs, direction) => {
      const records = recordsOf(pairs)
      const turned = { ...records, links: new Map([...records.links].reverse()) }
      expect(buildTrace(turned, [node('a')], direction)).toEqual(buildTrace(records, [node('a')], direction))
    }),
  )
})
