/** The shades of ribbons: gradients from the accent of one pane to that of another. */
import type { FrameGeometry } from '../../frame/geometry.ts'
import type { Route } from '../bundles.ts'

/** The shades of ribbons: from the pane on their left to the one on their right. */
export const strokeOf: Readonly<Record<Route, string>> = {
  'first gap': 'st-ribbon-first',
  'second gap': 'st-ribbon-second',
  across: 'st-ribbon-across',
  journal: 'st-ribbon-first',
  procedure: 'st-ribbon-second',
}

/** The gradients of the shades: where they begin and end, and the panes whose accents they lead between. */
export function shadesOf({ gaps: [first, second] }: Pick<FrameGeometry, 'gaps'>) {
  return [
    { id: strokeOf['first gap'], from: first.left, to: first.right, bands: ['sources', 'journal'] },
    { id: strokeOf['second gap'], from: second.left, to: second.right, bands: ['journal', 'procedure'] },
    { id: strokeOf.across, from: first.left, to: second.right, bands: ['sources', 'procedure'] },
  ] as const
}
