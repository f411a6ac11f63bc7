import { useRef, type KeyboardEvent, type ReactNode } from 'react'
import { placeNear, type Side } from './place.ts'

export interface TooltipProps {
  /** A few words; the thing it hangs on must carry the same words as its label. */
  readonly words: string
  /** Keys that do the same, for instance 'Ctrl+Z'. */
  readonly keys?: string | undefined
  /** Where it stands while there is room: not where it would cover what is being written. */
  readonly side?: Side
  readonly children: ReactNode
}

/**
 * Words that show beside a control while it is pointed at or holds the keyboard's focus (WCAG 2.2, 1.4.13: Escape
 * takes them away, and the pointer may move onto them). Assistive technology reads the control's own label instead.
 */
export function Tooltip({ words, keys, side = 'below', children }: TooltipProps) {
  const anchor = useRef<HTMLSpanElement>(null)
  const bubble = useRef<HTMLSpanElement>(null)
  // The element itself is asked, not a state: focus may come and go before React draws again.
  const isShown = () => bubble.current?.matches(':popover-open') === true

  const show = () => {
    const popover = bubble.current
    if (popover === null || anchor.current === null || isShown()) return
    popover.showPopover()
    placeNear(popover, anchor.current.getBoundingClientRect(), 'centre', side)
  }
  const showFor = (control: Element) => {
    try {
      show()
    } catch {
      // A menu that takes another's place moves the focus while it is being shown; nothing else can be shown just then.
      setTimeout(() => control === document.activeElement && show())
    }
  }
  const hide = () => {
    if (isShown()) bubble.current?.hidePopover()
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || !isShown()) return
    event.stopPropagation()
    hide()
  }

  return (
    <span
      ref={anchor}
      className="st-tip-anchor"
      onPointerEnter={(event) => event.pointerType !== 'touch' && show()}
      onPointerLeave={hide}
      onPointerDown={hide}
      onFocus={(event) => event.target.matches(':focus-visible') && showFor(event.target)}
      onBlur={hide}
      onKeyDown={onKeyDown}
    >
      {children}
      <span ref={bubble} popover="manual" className="st-tip" aria-hidden="true">
        {words === '' ? null : <span>{words}</span>}
        {keys === undefined ? null : <span className="st-tip-keys">{keys}</span>}
      </span>
    </span>
  )
}
