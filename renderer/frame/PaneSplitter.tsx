import { useRef, type KeyboardEvent, type PointerEvent } from 'react'
import type { Splitter } from './layout.ts'

export interface PaneSplitterProps {
  readonly place: Splitter
  /** Width of the pane on its left and its limits, in pixels; null when there is nothing to move. */
  readonly reach: { readonly now: number; readonly min: number; readonly max: number } | null
  /** How far one press of an arrow key goes, in pixels; with Shift four times as far. */
  readonly step: number
  readonly onWidth: (width: number) => void
  /** Enter folds or unfolds: the first splitter the sources, the second the procedure. */
  readonly onFold: () => void
}

const names = ['Between sources and journal', 'Between journal and procedure'] as const

/** The line between two panes (WAI-ARIA APG, window splitter pattern): drag, touch, arrows, Home, End, Enter. */
export function PaneSplitter({ place, reach, step, onWidth, onFold }: PaneSplitterProps) {
  const grip = useRef<{ pointer: number; from: number; width: number } | null>(null)

  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (reach === null || event.button !== 0) return
    event.currentTarget.setPointerCapture(event.pointerId)
    grip.current = { pointer: event.pointerId, from: event.clientX, width: reach.now }
  }
  const onPointerMove = (event: PointerEvent<HTMLDivElement>) => {
    const held = grip.current
    if (held?.pointer === event.pointerId) onWidth(held.width + event.clientX - held.from)
  }
  const onPointerEnd = (event: PointerEvent<HTMLDivElement>) => {
    if (grip.current?.pointer === event.pointerId) grip.current = null
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') {
      event.preventDefault()
      onFold()
      return
    }
    const width = reach === null ? null : widthForKey(event, reach, step)
    if (width === null) return
    event.preventDefault()
    onWidth(width)
  }

  return (
    <div className={`st-gap st-gap--${place}`}>
      <div
        className="st-splitter"
        role="separator"
        aria-orientation="vertical"
        aria-label={names[place]}
        aria-valuenow={Math.round(reach?.now ?? 0)}
        aria-valuemin={Math.round(reach?.min ?? 0)}
        aria-valuemax={Math.round(reach?.max ?? 0)}
        aria-valuetext={reach === null ? 'Folded' : `${Math.round(reach.now)} pixels`}
        tabIndex={0}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerEnd}
        onPointerCancel={onPointerEnd}
        onKeyDown={onKeyDown}
      />
    </div>
  )
}

function widthForKey(
  event: { readonly key: string; readonly shiftKey: boolean },
  reach: { readonly now: number; readonly min: number; readonly max: number },
  step: number,
): number | null {
  const far = event.shiftKey ? step * 4 : step
  if (event.key === 'ArrowLeft') return reach.now - far
  if (event.key === 'ArrowRight') return reach.now + far
  if (event.key === 'Home') return reach.min
  if (event.key === 'End') return reach.max
  return null
}
