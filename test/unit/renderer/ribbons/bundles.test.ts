import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  formOfAll,
  idsOf,
  routeOf,
  stands,
  toBundles,
  type Spot,
  type Strand,
} from '../../../../renderer/ribbons/bundles.ts'
import { acrossFirstGap, anyStrands, at, endOf, ribbonOf, strandOf } from './strands.ts'

const source = endOf('sources', 's')
const entry = endOf('journal', 'e')
const part = endOf('procedure', 'p')
const sizesOf = (strands: readonly Strand[]) => toBundles(strands).map(({ strands: { length } }) => length)

describe('routeOf', () => {
  it('runs through the gap between the panes of the ends, whichever of them is older', () => {
    expect(routeOf(ribbonOf(source, entry))).toEqual({ route: 'first gap', left: source, right: entry })
    expect(routeOf(ribbonOf(entry, part))).toEqual({ route: 'second gap', left: entry, right: part })
    expect(routeOf(ribbonOf(part, entry))).toEqual({ route: 'second gap', left: entry, right: part })
    expect(routeOf(ribbonOf(source, part))).toEqual({ route: 'across', left: source, right: part })
  })

  it('comes back to its own pane with the newer end first, but not among sources', () => {
    const later = endOf('journal', 'e2')
    expect(routeOf(ribbonOf(entry, later))).toEqual({ route: 'journal', left: later, right: entry })
    const other = endOf('procedure', 'p2')
    expect(routeOf(ribbonOf(part, other))).toEqual({ route: 'procedure', left: other, right: part })
    expect(routeOf(ribbonOf(source, endOf('sources', 's2')))).toBeNull()
  })
})

const middleOf = (spot: Spot): number | string => (stands(spot) ? (spot.top + spot.bottom) / 2 : spot.kind)

function isOnePlace(spots: readonly Spot[]): boolean {
  const middles = spots.map(middleOf)
  if (middles.some((one) => typeof one === 'string')) return new Set(middles).size === 1
  const isFixed = new Set(spots.map(({ kind }) => kind === 'fixed'))
  return isFixed.size === 1 && Math.max(...(middles as number[])) - Math.min(...(middles as number[])) <= 8
}

describe('toBundles', () => {
  it('puts every strand into one bundle, and never two routes or own ones with others’ into the same', () => {
    fc.assert(
      fc.property(anyStrands, (strands) => {
        const bundles = toBundles(strands)
        const ids = bundles.flatMap(idsOf)
        expect(ids.sort()).toEqual(strands.map(({ ribbon }) => ribbon.link.id).sort())
        for (const bundle of bundles)
          for (const strand of bundle.strands)
            expect([strand.route, strand.isOwn, strand.left.band, strand.right.band]).toEqual([
              bundle.route,
              bundle.isOwn,
              bundle.left.band,
              bundle.right.band,
            ])
      }),
    )
  })

  it('joins only what lies between the same two things or at the same two places', () => {
    fc.assert(
      fc.property(anyStrands, (strands) => {
        for (const { strands: joined } of toBundles(strands)) {
          const things = new Set(joined.map(({ left, right }) => `${left.node.id} ${right.node.id}`))
          const isNear =
            isOnePlace(joined.map(({ leftSpot }) => leftSpot)) &&
            isOnePlace(joined.map(({ rightSpot }) => rightSpot))
          expect(things.size === 1 || isNear).toBe(true)
        }
      }),
    )
  })

  it('joins ends that nearly touch, reckoned from the first of them, so that no chain forms', () => {
    expect(sizesOf([0, 8].map((top) => acrossFirstGap(at(top), at(100 + top))))).toEqual([2])
    expect(sizesOf([0, 9].map((top) => acrossFirstGap(at(top), at(100))))).toEqual([1, 1])
    expect(sizesOf([0, 9].map((top) => acrossFirstGap(at(100), at(top))))).toEqual([1, 1])
    expect(sizesOf([0, 6, 12].map((top) => acrossFirstGap(at(top), at(100))))).toEqual([2, 1])
  })

  it('joins from further apart where ribbons are many', () => {
    const spread = (count: number) =>
      Array.from({ length: count }, (_, i) =>
        acrossFirstGap(at(Math.floor(i / 2) * 100 + (i % 2) * 12), at(0)),
      )
    expect(toBundles(spread(120))).toHaveLength(120)
    expect(toBundles(spread(122))).toHaveLength(61)
  })

  it('draws up to three between the same two things one by one, and more as one', () => {
    const between = (count: number) =>
      Array.from({ length: count }, (_, i) => strandOf(ribbonOf(source, entry), at(i * 100), at(i * 70)))
    expect(sizesOf(between(3))).toEqual([1, 1, 1])
    const [bundle, ...more] = toBundles(between(4))
    expect(more).toEqual([])
    expect(bundle!.left.spot).toEqual({ kind: 'at', top: 0, bottom: 320 })
    expect(bundle!.right.spot).toEqual({ kind: 'at', top: 0, bottom: 230 })
  })

  it('keeps own ones, fixed ones and ones out of the page from others at the same place', () => {
    const plain = acrossFirstGap(at(50), at(50))
    expect(sizesOf([plain, acrossFirstGap(at(50), at(50))])).toEqual([2])
    expect(sizesOf([plain, acrossFirstGap(at(50), at(50), true)])).toEqual([1, 1])
    expect(sizesOf([plain, acrossFirstGap({ kind: 'fixed', top: 50, bottom: 70 }, at(50))])).toEqual([1, 1])
    expect(sizesOf([plain, acrossFirstGap({ kind: 'above' }, at(50))])).toEqual([1, 1])
    expect(sizesOf([0, 1].map(() => acrossFirstGap({ kind: 'above' }, at(50))))).toEqual([2])
  })

  it('marks words by a bar, lost words by a cross, the asked end of an answer by a diamond', () => {
    const words = endOf('sources', 'w', { places: [{ start: 0, end: 3 }] })
    const lost = endOf('journal', 'x', { isLost: true })
    const [first] = toBundles([strandOf(ribbonOf(words, lost, 'loose'), at(0), at(0))])
    expect([first!.left.mark, first!.right.mark, first!.form]).toEqual(['bar', 'cross', 'loose'])
    const answer = ribbonOf(entry, endOf('journal', 'e2'), 'answers')
    const [second] = toBundles([strandOf(answer, at(0), at(60))])
    expect([second!.left.mark, second!.right.mark]).toEqual(['ring', 'diamond'])
  })
})

it('a bundle has the form that all its standing links have, else that of a derivation', () => {
  expect(formOfAll(['quotes', 'loose', 'quotes'])).toBe('quotes')
  expect(formOfAll(['quotes', 'cites'])).toBe('derives')
  expect(formOfAll(['loose', 'loose'])).toBe('loose')
})
