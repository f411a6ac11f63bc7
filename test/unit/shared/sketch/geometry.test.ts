import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { boxAround, multiply, toMatrix, transformPoint } from '../../../../shared/sketch/matrix.ts'
import { lengthOf, pointAlong, strokesOf } from '../../../../shared/sketch/path.ts'
import { placesOf, sidesOf, type Branch } from '../../../../shared/sketch/tree.ts'

const boxOfPath = (data: string) => boxAround(strokesOf(data).flat())!

describe('path data', () => {
  test('lines, absolute and relative, lead to the same box', () => {
    expect(boxOfPath('M10,20 L40,20 L40,60 Z')).toEqual({ x: 10, y: 20, width: 30, height: 40 })
    expect(boxOfPath('m10 20 30 0 0 40z')).toEqual({ x: 10, y: 20, width: 30, height: 40 })
    expect(boxOfPath('M10 20h30v40h-30z')).toEqual({ x: 10, y: 20, width: 30, height: 40 })
  })

  test('an arc of half a circle reaches as far as its radius, also with flags that stand against each other', () => {
    for (const data of ['M0,0 A10,10 0 0 1 20,0', 'M0 0a10 10 0 0120 0']) {
      const { x, y, width, height } = boxOfPath(data)
      expect([x, width]).toEqual([0, 20])
      expect(y).toBeCloseTo(-10, 1)
      expect(height).toBeCloseTo(10, 1)
      expect(lengthOf(strokesOf(data))).toBeCloseTo(Math.PI * 10, 0)
    }
  })

  test('a curve ends where it should and stays within its control points', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 8, maxLength: 8 }), (n) => {
        const [x0, y0, x1, y1, x2, y2, x3, y3] = n as [
          number,
          number,
          number,
          number,
          number,
          number,
          number,
          number,
        ]
        const [stroke] = strokesOf(`M${x0},${y0}C${x1},${y1} ${x2},${y2} ${x3},${y3}`)
        expect(stroke!.at(-1)).toEqual({ x: x3, y: y3 })
        const box = boxAround(stroke!)!
        expect(box.x).toBeGreaterThanOrEqual(Math.min(x0, x1, x2, x3) - 1e-6)
        expect(box.y + box.height).toBeLessThanOrEqual(Math.max(y0, y1, y2, y3) + 1e-6)
      }),
    )
  })

  test('walking along a path reaches its middle and its end', () => {
    const strokes = strokesOf('M0,0 L30,0 L30,10')
    expect(pointAlong(strokes, 15)).toEqual({ x: 15, y: 0 })
    expect(pointAlong(strokes, 35)).toEqual({ x: 30, y: 5 })
    expect(pointAlong(strokes, 99)).toEqual({ x: 30, y: 10 })
  })
})

describe('transforms', () => {
  test('are done from the last to the first, as SVG writes them', () => {
    const matrix = toMatrix('translate(10, 20) rotate(90) scale(2)')
    const { x, y } = transformPoint(matrix, { x: 3, y: 0 })
    expect(x).toBeCloseTo(10)
    expect(y).toBeCloseTo(26)
  })

  test('a turn about a point leaves the point where it is', () => {
    fc.assert(
      fc.property(fc.integer({ min: -360, max: 360 }), fc.integer(), fc.integer(), (degrees, x, y) => {
        const at = { x: x % 1000, y: y % 1000 }
        const moved = transformPoint(toMatrix(`rotate(${degrees}, ${at.x}, ${at.y})`), at)
        expect(moved.x).toBeCloseTo(at.x, 6)
        expect(moved.y).toBeCloseTo(at.y, 6)
      }),
    )
  })

  test('joining maps is associative', () => {
    const [a, b, c] = [toMatrix('rotate(30)'), toMatrix('translate(5 7)'), toMatrix('skewX(20)')]
    const one = multiply(multiply(a, b), c)
    multiply(a, multiply(b, c)).forEach((part, i) => expect(part).toBeCloseTo(one[i]!))
  })
})

describe('a mind map', () => {
  const branchesOfDepth = (depth: number): fc.Arbitrary<Omit<Branch, 'id'>> =>
    fc.record({
      width: fc.integer({ min: 10, max: 300 }),
      height: fc.integer({ min: 10, max: 120 }),
      children: fc.array(branchesOfDepthBelow(depth), { maxLength: depth > 0 ? 4 : 0 }) as fc.Arbitrary<
        Branch[]
      >,
    })
  const branchesOfDepthBelow = (depth: number): fc.Arbitrary<unknown> =>
    depth > 0 ? branchesOfDepth(depth - 1) : fc.constant(null)
  const branches = branchesOfDepth(3)

  const named = (branch: Omit<Branch, 'id'>, id = '0'): Branch => ({
    ...branch,
    id,
    children: branch.children.map((child, i) => named(child, `${id}.${i}`)),
  })
  const all = (branch: Branch): Branch[] => [branch, ...branch.children.flatMap(all)]

  test('no two parts lie over each other, and each has a place', () => {
    fc.assert(
      fc.property(branches, (tree) => {
        const root = named(tree)
        const places = placesOf(root)
        const boxes = all(root).map(({ id, width, height }) => {
          const { x, y } = places.get(id)!
          return { left: x - width / 2, right: x + width / 2, top: y - height / 2, bottom: y + height / 2 }
        })
        for (const [i, one] of boxes.entries())
          for (const other of boxes.slice(i + 1)) {
            const isApart =
              one.right <= other.left + 1e-6 ||
              other.right <= one.left + 1e-6 ||
              one.bottom <= other.top + 1e-6 ||
              other.bottom <= one.top + 1e-6
            expect(isApart).toBe(true)
          }
      }),
    )
  })

  test('like branches are shared out between the two sides', () => {
    const leaf = (id: string): Branch => ({ id, width: 10, height: 10, children: [] })
    const { right, left } = sidesOf(['a', 'b', 'c', 'd'].map(leaf))
    expect([right.map(({ id }) => id), left.map(({ id }) => id)]).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ])
  })
})
