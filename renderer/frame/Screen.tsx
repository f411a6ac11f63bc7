import type { ReactNode } from 'react'

export interface ScreenProps {
  readonly top: ReactNode
  /** ThreePanes, or another place that takes the whole middle. */
  readonly children: ReactNode
  readonly foot: ReactNode
}

/** The whole window: bar, middle, status line. Only the middle's panes scroll. */
export function Screen({ top, children, foot }: ScreenProps) {
  return (
    <div className="st-screen">
      {top}
      <main className="st-screen-middle">{children}</main>
      {foot}
    </div>
  )
}
