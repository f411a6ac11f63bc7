/**
 * The marks of ends, as one path for each pane's edge. Pure. They stand where the words do in the pane's text, so that the
 * path is moved as a whole when the pane is scrolled, and cut off where the text is.
 */
import type { FrameGeometry } from '../frame/geometry.ts'
import type { Band } from '../frame/layout.ts'
import { stands, type Bundle, type BundleEnd } from './bundles.ts'
import { markPath } from './geometry.ts'
import { edgeOf } from './layout.ts'

/** An edge of a pane beside a gap. */
export interface Edge {
  readonly gap: 0 | 1
  readonly side: 'left' | 'right'
  readonly band: Band
}

export const edges: readonly Edge[] = [
  { gap: 0, side: 'left', band: 'sources' },
  { gap: 0, side: 'right', band: 'journal' },
  { gap: 1, side: 'left', band: 'journal' },
  { gap: 1, side: 'right', band: 'procedure' },
]

/** How marks are drawn: bars thick, others thin; those that step back fainter; those of a pane's head unmoved. */
export interface MarkLook {
  readonly isBar: boolean
  readonly isDim: boolean
  readonly isFixed: boolean
}

export const markLooks: readonly MarkLook[] = [true, false].flatMap((isBar) =>
  [true, false].flatMap((isDim) => [true, false].map((isFixed) => ({ isBar, isDim, isFixed }))),
)

/** How far inside the gap marks stand. */
const INSET = 4

/** The paths of all marks, by edge and then by look. @param dims whether those that are not the person's own step back */
export function marksOf(
  bundles: readonly Bundle[],
  { gaps }: Pick<FrameGeometry, 'gaps'>,
  dims: boolean,
): string[][] {
  const paths = edges.map(() => markLooks.map(() => new Set<string>()))
  for (const bundle of bundles)
    for (const side of ['left', 'right'] as const) {
      const { spot, mark } = bundle[side]
      if (!stands(spot) || spot.kind === 'rough') continue
      const place = edgeOf(bundle.route, side)
      const edge = edges.findIndex((one) => one.gap === place.gap && one.side === place.side)
      const { left, right } = gaps[place.gap]
      const at = place.side === 'left' ? left + INSET : right - INSET
      const look = lookOf(bundle[side], dims && !bundle.isOwn)
      paths[edge]![look]!.add(markPath(mark, at, spot))
    }
  return paths.map((looks) => looks.map((own) => [...own].join('')))
}

function lookOf({ mark, spot }: BundleEnd, isDim: boolean): number {
  const isBar = mark === 'bar'
  const isFixed = spot.kind === 'fixed'
  return markLooks.findIndex(
    (look) => look.isBar === isBar && look.isDim === isDim && look.isFixed === isFixed,
  )
}
