import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { indexOf } from '../../../../renderer/ribbons/links.ts'
import { noTrail, walk, type Trail, type WalkLinks } from '../../../../renderer/ribbons/walk.ts'
import type { Link, LinkState } from '../../../../shared/lab/model.ts'

type Pair = readonly [older: number, newer: number]
type Direction = 'back' | 'forward'
const opposite = { back: 'forward', forward: 'back' } as const

function toLinks(pairs: readonly Pair[]): WalkLinks {
  const node = (n: number) => ({ node: { kind: 'entry', id: `${n}` } })
  const links = pairs.map(([older, newer], i) => {
    return { id: `l${i}`, older: node(older), newer: node(newer) } as unknown as Link
  })
  return { index: indexOf(new Map(links.map((link) => [link.id, link]))), states: new Map() }
}

/** Links lead from lower numbers to higher ones, so none comes back to where it began. */
const anyPairs = fc
  .array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 12 })
  .map((all) => all.filter(([a, b]) => a !== b).map(([a, b]): Pair => [Math.min(a, b), Math.max(a, b)]))

/** All that can be reached from a thing, by the list of links alone. */
function naiveReach(pairs: readonly Pair[], start: number, direction: Direction): Set<string> {
  const found = new Set<string>()
  const follow = (from: number): void => {
    for (const [older, newer] of pairs) {
      const [near, far] = direction === 'back' ? [newer, older] : [older, newer]
      if (near !== from) continue
      found.add(`${near} ${far}`)
      follow(far)
    }
  }
  follow(start)
  return found
}

/** Goes on as far as it goes and returns, as often as there are ways; the keyboard follows. */
function walkAll(links: WalkLinks, start: number, direction: Direction): { met: Set<string>; trail: Trail } {
  const met = new Set<string>()
  let trail = noTrail
  const follow = (from: string): void => {
    for (let place = 0, of = 1; place < of; place += 1) {
      const there = walk(links, trail, [from], direction)
      if (!there) return
      of = there.which!.of
      met.add(`${from} ${there.to.node.id}`)
      trail = there.trail
      follow(there.to.node.id)
      const back = walk(links, trail, [there.to.node.id], opposite[direction])!
      expect([back.to.node.id, back.which]).toEqual([from, null])
      trail = back.trail
    }
  }
  follow(`${start}`)
  return { met, trail }
}

describe('walking', () => {
  it('reaches every link of a thing’s chains by two keys, and is back where it began', () => {
    fc.assert(
      fc.property(anyPairs, fc.nat(6), fc.constantFrom('back', 'forward'), (pairs, start, direction) => {
        const { met, trail } = walkAll(toLinks(pairs), start, direction)
        expect(met).toEqual(naiveReach(pairs, start, direction))
        expect(trail.hops).toEqual([])
      }),
    )
  })

  it('takes the next way only when it sets out again, and begins anew after the last', () => {
    const links = toLinks([
      [0, 9],
      [1, 9],
    ])
    let trail = noTrail
    const places = [0, 1, 2].map(() => {
      const there = walk(links, trail, ['9'], 'back')!
      trail = walk(links, there.trail, [there.to.node.id], 'forward')!.trail
      return [there.to.node.id, there.which]
    })
    expect(places).toEqual([
      ['0', { place: 1, of: 2 }],
      ['1', { place: 2, of: 2 }],
      ['0', { place: 1, of: 2 }],
    ])
  })

  it('does not return to where a walk began once the keyboard is elsewhere', () => {
    const links = toLinks([
      [0, 1],
      [1, 2],
      [3, 4],
    ])
    const first = walk(links, noTrail, ['2'], 'back')!
    expect(walk(links, first.trail, ['3'], 'forward')).toMatchObject({ to: { node: { id: '4' } } })
    expect(walk(links, first.trail, ['4'], 'forward')).toBeNull()
  })

  it('returns to all parts of a step that it set out from', () => {
    const links = toLinks([
      [0, 7],
      [1, 8],
    ])
    const first = walk(links, noTrail, ['7', '8'], 'back')!
    const back = walk(links, first.trail, ['0'], 'forward')!
    const second = walk(links, back.trail, ['7'], 'back')!
    expect([first.to.node.id, back.to.node.id, second.to.node.id]).toEqual(['0', '7', '1'])
  })

  it('takes links in the order of their words at the near end and marks the words at the far one', () => {
    const { index } = toLinks([
      [0, 9],
      [1, 9],
      [1, 9],
    ])
    const state = (near: number, far: number) =>
      ({
        newer: { places: [null, { start: near, end: near + 2 }] },
        older: { places: [{ start: far, end: far + 2 }] },
      }) as unknown as LinkState
    const states = new Map([
      ['l0', state(40, 5)],
      ['l1', state(10, 6)],
      ['l2', state(80, 60)],
    ])
    const { to, which } = walk({ index, states }, noTrail, ['9'], 'back')!
    expect(which).toEqual({ place: 1, of: 2 })
    expect(to).toEqual({
      node: { kind: 'entry', id: '1' },
      ranges: [
        { start: 6, end: 8 },
        { start: 60, end: 62 },
      ],
    })
  })
})
