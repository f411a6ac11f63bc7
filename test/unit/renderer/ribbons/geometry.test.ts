import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  distanceTo,
  laneOf,
  middleOf,
  seenMiddle,
  span,
  unitPath,
  type Stroke,
  type StrokeKind,
} from '../../../../renderer/ribbons/geometry.ts'

const anyStroke = fc
  .record({
    kind: fc.constantFrom<StrokeKind>('curve', 'elbow', 'arc'),
    x1: fc.integer({ min: 0, max: 40 }),
    lane: fc.integer({ min: 0, max: 40 }),
    x2: fc.integer({ min: 0, max: 40 }),
    from: fc.integer({ min: 0, max: 800 }),
    to: fc.integer({ min: 0, max: 800 }),
  })
  .map(({ kind, x1, lane, x2, from, to }): Stroke => {
    const stroke: Stroke = { kind, way: { x1, lane, x2 }, y: 0, over: 0 }
    span(stroke, from, to)
    return stroke
  })

/**
 * Points of what is painted, close together: of the path that is written, stretched as the picture stretches it. The cubic
 * is taken by de Casteljau's halving points, not by its polynomial.
 */
function painted({ kind, way, y, over }: Stroke): [number, number][] {
  const [x, top, ...by] = unitPath(kind, way)
    .match(/-?[\d.]+/g)!
    .map(Number) as [number, number, ...number[]]
  expect(by).toHaveLength(6)
  const points = [0, 2, 4].map((i): [number, number] => [x + by[i]!, y + over * (top + by[i + 1]!)])
  const blend = (a: [number, number], b: [number, number], t: number): [number, number] => [
    a[0] + (b[0] - a[0]) * t,
    a[1] + (b[1] - a[1]) * t,
  ]
  const corners: [number, number][] = [[x, y + over * top], ...points]
  return Array.from({ length: 3001 }, (_, i) => {
    let level = corners
    while (level.length > 1) level = level.slice(1).map((point, k) => blend(level[k]!, point, i / 3000))
    return level[0]!
  })
}

const nearestOf = (points: readonly [number, number][], x: number, y: number): number =>
  points.reduce((least, [px, py]) => Math.min(least, Math.hypot(px - x, py - y)), Infinity)

describe('a stroke', () => {
  it('is as far from a point as the nearest of many points of what is painted', () => {
    const point = fc.tuple(fc.integer({ min: -60, max: 100 }), fc.integer({ min: -100, max: 900 }))
    fc.assert(
      fc.property(anyStroke, point, (stroke, [x, y]) => {
        // 24 straight pieces stray from a cubic 800 px high by up to 6 · 800 / (8 · 24²) ≈ 1 px.
        expect(Math.abs(distanceTo(stroke, x, y) - nearestOf(painted(stroke), x, y))).toBeLessThan(1.4)
      }),
    )
  })

  it('has its middle on what is painted, and none where it leads to a tab', () => {
    fc.assert(
      fc.property(anyStroke, (stroke) => {
        const middle = middleOf(stroke)
        if (stroke.kind === 'elbow') expect(middle).toBeNull()
        else expect(nearestOf(painted(stroke), ...middle!)).toBeLessThan(0.5)
      }),
    )
  })

  it('always has a height, and bends into a trunk within 16 px', () => {
    const way = { x1: 0, lane: 20, x2: 20 }
    const over = (kind: StrokeKind, from: number, to: number): number => {
      const stroke: Stroke = { kind, way, y: 0, over: 0 }
      span(stroke, from, to)
      expect(stroke.y).toBe(from)
      return stroke.over
    }
    expect([over('curve', 10, 300), over('elbow', 10, 300), over('elbow', 300, 10)]).toEqual([290, 16, -16])
    expect(over('elbow', 10, 15)).toBe(5)
    for (const kind of ['curve', 'elbow', 'arc'] as const) expect(over(kind, 7, 7)).not.toBe(0)
  })
})

it('what is seen of an extent has its middle in the box, and it counts as seen from 4 px on', () => {
  const box = { top: 100, bottom: 200 }
  expect(seenMiddle(120, 140, box)).toBe(130)
  expect(seenMiddle(60, 120, box)).toBe(110)
  expect(seenMiddle(180, 900, box)).toBe(190)
  expect(seenMiddle(0, 900, box)).toBe(150)
  expect([seenMiddle(80, 103, box), seenMiddle(80, 104, box)]).toEqual([-Infinity, 102])
  expect([seenMiddle(197, 220, box), seenMiddle(196, 220, box)]).toEqual([Infinity, 198])
})

it('ribbons turn inside their gap, neighbours at least a sixth of it from each other', () => {
  for (let i = 0; i < 200; i += 1) {
    const lane = laneOf(i, 1000, 2000)
    expect(lane).toBeGreaterThan(1200)
    expect(lane).toBeLessThan(1800)
    expect(Math.abs(lane - laneOf(i + 1, 1000, 2000))).toBeGreaterThan(1000 / 6)
  }
})
