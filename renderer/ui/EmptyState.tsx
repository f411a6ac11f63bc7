import type { ReactNode } from 'react'
import type { Icon } from './icons.tsx'

export interface EmptyStateProps {
  readonly icon: Icon
  /** One sentence: what this place is for. */
  readonly purpose: string
  /** The one thing to do: a Button with the look 'strong' or 'plain'. */
  readonly action?: ReactNode
  /** A quieter line below, for instance the keys that do the same or what may be dropped here. */
  readonly hint?: ReactNode
}

/** What stands in a pane that holds nothing yet. */
export function EmptyState({ icon: Picture, purpose, action, hint }: EmptyStateProps) {
  return (
    <div className="st-empty">
      <Picture className="st-empty-picture" weight="light" size="2.4rem" />
      <p className="st-empty-purpose">{purpose}</p>
      {action}
      {hint === undefined ? null : <p className="st-empty-hint">{hint}</p>}
    </div>
  )
}
