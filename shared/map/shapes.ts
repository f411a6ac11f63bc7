/** The shapes of the kinds. Each kind has its own, so that colour only repeats what the shape says. */
import type { MapBand, MapKind } from './model.ts'

type Point = readonly [number, number]

/** The outline of a kind in a square from -1 to 1, one list of corners for each closed piece of it. */
const outlines: Readonly<Record<MapKind, readonly (readonly Point[])[]>> = {
  page: [box(-0.7, -1, 0.7, 1)],
  pdf: [
    [
      [-0.75, -1],
      [0.2, -1],
      [0.75, -0.4],
      [0.75, 1],
      [-0.75, 1],
    ],
  ],
  manual: [box(-1, -0.8, -0.12, 0.8), box(0.12, -0.8, 1, 0.8)],
  markdown: [
    [
      [-1, 0.7],
      [-1, -0.7],
      [0, 0.1],
      [1, -0.7],
      [1, 0.7],
    ],
  ],
  text: [box(-0.9, -0.9, 0.9, -0.35), box(-0.9, 0.1, 0.4, 0.65)],
  picture: [box(-1, -0.8, 1, 0.8), box(-0.45, -0.35, 0.45, 0.35)],
  link: [around(5, -90)],
  action: [
    [
      [-0.8, -1],
      [1, 0],
      [-0.8, 1],
    ],
  ],
  output: [box(-1, -0.45, 1, 0.45)],
  observation: [around(24, 0)],
  problem: [around(4, 45, 0.3)],
  fix: [around(4, 0, 0.3)],
  decision: [around(4, 0)],
  file: [
    [
      [-0.75, -1],
      [0.75, -1],
      [0.75, 0.4],
      [0.2, 1],
      [-0.75, 1],
    ],
  ],
  list: [box(-0.9, -0.9, 0.9, -0.45), box(-0.9, -0.22, 0.9, 0.22), box(-0.9, 0.45, 0.9, 0.9)],
  step: [around(6, 0)],
  section: [
    [
      [-0.5, -0.7],
      [0.5, -0.7],
      [1, 0.7],
      [-1, 0.7],
    ],
  ],
  procedure: [around(8, 22.5)],
  group: [
    box(-1, -1, 0.4, 0.4),
    [
      [0.65, -0.5],
      [1, -0.5],
      [1, 1],
      [-0.5, 1],
      [-0.5, 0.65],
      [0.65, 0.65],
    ],
  ],
}

function box(left: number, top: number, right: number, bottom: number): readonly Point[] {
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ]
}

/**
 * Corners on a circle.
 * @param from where the first one lies, in degrees clockwise from the right
 * @param waist how far from the middle the points between two corners lie; without it the sides are straight
 */
function around(corners: number, from: number, waist?: number): readonly Point[] {
  const count = waist === undefined ? corners : 2 * corners
  return Array.from({ length: count }, (_, i) => {
    const angle = ((from + (i * 360) / count) * Math.PI) / 180
    const far = waist !== undefined && i % 2 === 1 ? waist : 1
    return [Math.cos(angle) * far, Math.sin(angle) * far]
  })
}

const digits = (value: number): string => String(Math.round(value * 100) / 100)

/** The shape of a kind as the data of an SVG path (SVG 2, §9.3). @param size across, @param x and y its middle */
export function shapePath(kind: MapKind, x: number, y: number, size: number): string {
  return outlines[kind]
    .map((corners) => {
      const points = corners.map(([a, b]) => `${digits(x + (a * size) / 2)} ${digits(y + (b * size) / 2)}`)
      return `M${points.join('L')}Z`
    })
    .join('')
}

/** Colours by their name in the program's theme. */
export type MapPaint =
  | 'ink'
  | 'ink-soft'
  | 'rule'
  | 'rule-strong'
  | 'paper-raised'
  | `paper-${MapBand}`
  | `accent-${MapBand}`
  | `kind-${'action' | 'output' | 'observation' | 'problem' | 'fix' | 'decision' | 'file' | 'list'}`

/** The colour of a kind in its band. */
export function paintOf(kind: MapKind, band: MapBand): MapPaint {
  return band === 'journal' && kind !== 'group' ? (`kind-${kind}` as MapPaint) : `accent-${band}`
}
