/** Boxes of task lists in rendered Markdown that can be ticked, where whoever shows the text says so. */
import { createContext, useContext, type InputHTMLAttributes } from 'react'

export interface TickBoxes {
  /** Whether the item whose words begin there is ticked; undefined where it cannot be ticked. */
  readonly isTickedAt: (from: number) => boolean | undefined
  /** Words of the item, which name its box. */
  readonly wordsAt: (from: number) => string
  readonly onTick: (from: number) => void
  /** The place of the boxes in the order of Tab. */
  readonly tabIndex: number
}

/** Null where boxes only show what the text says. */
export const TicksContext = createContext<TickBoxes | null>(null)

type BoxProps = InputHTMLAttributes<HTMLInputElement> & { readonly 'data-from'?: string | number }

/** The box before an item of a task list. The node that it is made of is no attribute of it. */
export function TickBox({ node: _, ...props }: BoxProps & { readonly node?: unknown }) {
  const boxes = useContext(TicksContext)
  const from = Number(props['data-from'] ?? NaN)
  const isTicked = boxes?.isTickedAt(from)
  if (!boxes || isTicked === undefined) return <input {...props} readOnly />
  return (
    <input
      type="checkbox"
      className="st-tick"
      checked={isTicked}
      aria-label={boxes.wordsAt(from)}
      tabIndex={boxes.tabIndex}
      onChange={() => boxes.onTick(from)}
    />
  )
}
