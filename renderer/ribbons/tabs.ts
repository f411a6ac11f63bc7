/**
 * Tabs at the edges of the panes, where the ribbons gather that lead out of sight. Pure. CSS pixels from the frame's upper
 * left corner.
 */
import type { FrameGeometry } from '../frame/geometry.ts'
import type { Band } from '../frame/layout.ts'
import type { Aside } from './bundles.ts'
import type { Extent } from './geometry.ts'

export type Side = 'left' | 'right'

/** One tab: at a side of a gap, so of the pane on that side. */
export interface TabPlace {
  readonly gap: 0 | 1
  readonly side: Side
  readonly aside: Aside
}

const asides: readonly Aside[] = ['elsewhere', 'above', 'folded', 'below']

/** Every tab there can be. */
export const allTabs: readonly TabPlace[] = ([0, 1] as const).flatMap((gap) =>
  (['left', 'right'] as const).flatMap((side) => asides.map((aside) => ({ gap, side, aside }))),
)

/** Where a tab stands in `allTabs`. */
export function tabIndex({ gap, side, aside }: TabPlace): number {
  return gap * 8 + (side === 'right' ? 4 : 0) + asides.indexOf(aside)
}

/** The pane that a tab stands at. */
export function bandOfTab({ gap, side }: TabPlace): Band {
  if (gap === 0) return side === 'left' ? 'sources' : 'journal'
  return side === 'left' ? 'journal' : 'procedure'
}

/** How large a tab is; both at least 24, the least that WCAG 2.2 asks of a target (2.5.8). */
export interface TabSize {
  readonly width: number
  readonly height: number
}

/** @param rootFont in CSS pixels */
export function tabSizeFor(rootFont: number): TabSize {
  return { width: 28, height: Math.max(30, Math.round(2.2 * rootFont)) }
}

/** What tabs are placed by. */
export interface TabView {
  readonly geometry: Pick<FrameGeometry, 'gaps' | 'height'>
  /** What is seen of each pane's text. */
  readonly boxes: Readonly<Record<Band, Extent>>
  readonly tabSize: TabSize
  readonly rootFont: number
}

const APART = 4
/** How far tabs stand from the edge of what is seen. */
const EDGE = 2
/** The middle of a pane's head from the frame's upper edge, in root font sizes. */
const HEAD = 1.55
/** Where the tab of a folded pane stands, as a share of the frame's height. */
const FOLDED = 0.42

/**
 * The height of the middle of each tab. A gap is too narrow for two beside each other: those that would lie over each other
 * in it give way downwards, and where that leads past the last one's place, upwards.
 * @param counts of what each tab gathers, by `tabIndex`
 */
export function placeTabs(counts: readonly number[], view: TabView): number[] {
  const heights = allTabs.map((tab) => ownHeight(tab, view))
  for (const gap of [0, 1] as const) {
    const shown = allTabs.flatMap((tab, i) => (tab.gap === gap && counts[i]! > 0 ? [i] : []))
    // Of two at one height the left one keeps its place: above it comes first, below last.
    shown.sort((a, b) => heights[a]! - heights[b]! || rankOf(a) - rankOf(b))
    spread(shown, heights, view)
  }
  return heights
}

const rankOf = (tab: number): number => (allTabs[tab]!.aside === 'below' ? -tab : tab)

/** Moves tabs apart. @param shown their indexes, the highest first */
function spread(
  shown: readonly number[],
  heights: number[],
  { geometry, tabSize: { height } }: TabView,
): void {
  const last = shown.at(-1)
  if (last === undefined) return
  const foot = allTabs[last]!.aside === 'below' ? heights[last]! : geometry.height - height / 2 - EDGE
  const step = height + APART
  let least = Number.NEGATIVE_INFINITY
  for (const tab of shown) {
    heights[tab] = Math.max(heights[tab]!, least)
    least = heights[tab] + step
  }
  let most = foot
  for (const tab of shown.toReversed()) {
    heights[tab] = Math.min(heights[tab]!, most)
    most = heights[tab] - step
  }
}

function ownHeight(tab: TabPlace, { geometry, boxes, tabSize, rootFont }: TabView): number {
  const box = boxes[bandOfTab(tab)]
  switch (tab.aside) {
    case 'elsewhere':
      return HEAD * rootFont
    case 'above':
      return box.top + tabSize.height / 2 + EDGE
    case 'below':
      return box.bottom - tabSize.height / 2 - EDGE
    case 'folded':
      return Math.round(geometry.height * FOLDED)
  }
}

/** The left edge of a tab. */
export function tabLeft(
  { gap, side }: TabPlace,
  { geometry, tabSize }: Pick<TabView, 'geometry' | 'tabSize'>,
): number {
  const { left, right } = geometry.gaps[gap]
  return side === 'left' ? left : right - tabSize.width
}

/** Where the upright stroke runs that all ribbons to a tab share. */
export function trunkOf(tab: TabPlace, view: Pick<TabView, 'geometry' | 'tabSize'>): number {
  return Math.round(tabLeft(tab, view) + view.tabSize.width / 2)
}
