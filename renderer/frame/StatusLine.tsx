import type { ReactNode } from 'react'

export interface StatusLineProps {
  /** What is true now, for instance 'All written down at 14:03'. */
  readonly children?: ReactNode
  /** At the right end, for instance work that goes on in the background. */
  readonly end?: ReactNode
}

/** The foot of the screen: one quiet line. What must not be missed goes to Notices instead. */
export function StatusLine({ children, end }: StatusLineProps) {
  return (
    <footer className="st-status">
      <div className="st-status-now">{children}</div>
      <div className="st-status-end">{end}</div>
    </footer>
  )
}
