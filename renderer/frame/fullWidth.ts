/** One pane at full width, and the way back to the layout that was there before. */
import { createContext, useContext } from 'react'
import { widenOnly, type Band, type PaneLayout } from './layout.ts'

/** The key that gives the pane of sources the full width and takes it back. */
export const FULL_WIDTH_KEYS = 'Alt+W'

export interface FullWidth {
  readonly isFull: boolean
  readonly toggle: () => void
}

/** Provided by the screen that holds the panes. */
export const FullWidthContext = createContext<FullWidth>({ isFull: false, toggle: () => undefined })

export function useFullWidth(): FullWidth {
  return useContext(FullWidthContext)
}

/** What is kept while a pane has the full width: the layout from before. null while none has. */
export type Former = PaneLayout | null

/** The layout and what is kept, after the pane was given the full width or it was taken back. */
export function toggleFullWidth(
  layout: PaneLayout,
  former: Former,
  band: Band,
): { readonly layout: PaneLayout; readonly former: Former } {
  if (former === null) return { layout: widenOnly(layout, band), former: layout }
  // Widths that were changed meanwhile stay; what was folded before is folded again.
  return { layout: { ...layout, folded: former.folded }, former: null }
}

/** What is still kept after the person folded or unfolded panes: nothing once all others are open, or the pane itself is folded. */
export function formerAfter(layout: PaneLayout, former: Former, band: Band): Former {
  const isOver = layout.folded.length === 0 || layout.folded.includes(band)
  return isOver ? null : former
}
