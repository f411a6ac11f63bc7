/** Placeholders of parameters within a text that is shown. */
import { createContext, use, type ReactElement, type ReactNode } from 'react'

/** What is known of a name that stands in a placeholder. */
export interface ShownPlaceholder {
  /** Shown as its tooltip: a repetition, never all that there is to read. */
  readonly title: string
  /** quiet: it stands for itself. missing: it waits for a value. given: its value is known and not shown. */
  readonly look: 'quiet' | 'missing' | 'given'
  /** What stands in its place, where that may be seen and yet not be read as Markdown. */
  readonly value?: string | undefined
}

/** By name; null where placeholders have no meaning, as in the journal. */
export const PlaceholderContext = createContext<ReadonlyMap<string, ShownPlaceholder> | null>(null)

export function Placeholder({
  value,
  children,
}: {
  readonly value?: unknown
  readonly children?: ReactNode
}): ReactElement {
  const known = use(PlaceholderContext)
  if (!known) return <span>{children}</span>
  const shown = known.get(String(value))
  if (shown?.value !== undefined) return <span>{shown.value}</span>
  return (
    <span
      className={`st-placeholder st-placeholder--${shown?.look ?? 'unknown'}`}
      title={shown?.title ?? 'No parameter has this name.'}
    >
      {children}
    </span>
  )
}
