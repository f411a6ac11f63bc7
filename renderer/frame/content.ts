import type { ReactNode } from 'react'

/** What one pane shows; the frame knows nothing more about it. */
export interface PaneContent {
  readonly title: string
  /** How many things it holds; shown in the head and on the spine. */
  readonly count?: number | undefined
  /** What the count counts, for assistive technology: '12 entries'. */
  readonly countWords?: string | undefined
  /** Buttons at the right of the head. */
  readonly actions?: ReactNode
  /** Stays below the scrolled body, for instance the composer. */
  readonly foot?: ReactNode
  /** Scrolls by itself; a pane that scrolls its own content (a virtual list) sets `scrollsItself`. */
  readonly body: ReactNode
  readonly scrollsItself?: boolean
}
