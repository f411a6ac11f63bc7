import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { StoredChange } from '../../../../shared/lab/change.ts'
import type { Link, LinkNode } from '../../../../shared/lab/model.ts'
import { LinkGraph, toGraphLink, type TraceDirection } from '../../../../shared/provenance/graph.ts'
import { nearIn, reachOf, walkTrace, flattenTrace } from '../../../../shared/provenance/trace.ts'

const node = (id: string): LinkNode => ({ kind: 'entry', id }) as unknown as LinkNode

function linkOf(number: number, newer: string, older: string): Link {
  const end = (at: string) => ({ node: node(at), revision: null, ranges: [] })
  const id = `l${String(number).padStart(3, '0')}`
  return { id, made: '', way: 'drag', newer: end(newer), older: end(older) } as unknown as Link
}

/** The links that may be put and removed, by their number. */
const all = Array.from({ length: 12 }, (_, i) => linkOf(i, 'abcd'[i % 4]!, 'cdef'[(i * 7) % 4]!))
const steps = fc.array(fc.record({ link: fc.nat(all.length - 1), isPut: fc.boolean() }), { maxLength: 40 })

function changeOf(list: readonly { readonly link: number; readonly isPut: boolean }[]): StoredChange {
  const operations = list.map(({ link, isPut }) =>
    isPut
      ? { op: 'put', table: 'links', record: all[link]!, before: null }
      : { op: 'remove', table: 'links', before: all[link]! },
  )
  return { operations } as unknown as StoredChange
}

test('after any Changes the graph holds what a plain set of the links holds, at both ends and in order', () => {
  fc.assert(
    fc.property(steps, (list) => {
      const graph = new LinkGraph()
      const plain = new Map<string, Link>()
      for (const one of list) {
        graph.apply([changeOf([one])])
        const link = all[one.link]!
        if (one.isPut) plain.set(link.id, link)
        else plain.delete(link.id)
      }
      expect(graph.size).toBe(plain.size)
      for (const direction of ['back', 'forward'] as const) {
        const near = nearIn(plain.values(), direction)
        for (const id of 'abcdef')
          expect(graph.near(id, direction)).toEqual(near(id).map((link) => toGraphLink(link)))
      }
    }),
  )
})

test('a Change that the graph knows of already changes nothing', () => {
  fc.assert(
    fc.property(steps, (list) => {
      const [once, again] = [new LinkGraph(), new LinkGraph()]
      once.apply([changeOf(list)])
      again.apply([changeOf(list)])
      again.apply([changeOf(list)])
      expect(again.near('a', 'back')).toEqual(once.near('a', 'back'))
      expect(again.size).toBe(once.size)
    }),
  )
})

test('a graph filled in any order is the same graph', () => {
  const [inOrder, turned] = [new LinkGraph(), new LinkGraph()]
  for (const link of all) inOrder.put(toGraphLink(link))
  for (const link of [...all].reverse()) turned.put(toGraphLink(link))
  for (const id of 'abcdef')
    for (const direction of ['back', 'forward'] as const)
      expect(turned.near(id, direction)).toEqual(inOrder.near(id, direction))
})

test('what is within reach is what stands in the tree of hops, the nearest first', () => {
  const directions = fc.constantFrom<TraceDirection>('back', 'forward')
  fc.assert(
    fc.property(
      steps,
      directions,
      fc.integer({ min: 1, max: 5 }),
      fc.nat(9),
      (list, direction, depth, most) => {
        const graph = new LinkGraph()
        graph.apply([changeOf(list)])
        const near = (id: string) => graph.near(id, direction)
        const tree = walkTrace(near, [node('a'), node('c')], direction, depth)
        const whole = reachOf(near, [node('a'), node('c')], direction, depth)
        expect(whole.links.map(({ id }) => id).sort()).toEqual(
          flattenTrace(tree)
            .map(({ link }) => link.id)
            .sort(),
        )
        expect(whole.total).toBe(whole.links.length)
        const cut = reachOf(near, [node('a'), node('c')], direction, depth, most)
        expect(cut).toEqual({ links: whole.links.slice(0, most), total: whole.total })
        // Nearest first: the hops of the first level come before all others.
        const first = whole.links.slice(0, tree.length).map(({ id }) => id)
        expect(new Set(first)).toEqual(new Set(tree.map(({ link }) => link.id)))
      },
    ),
  )
})
