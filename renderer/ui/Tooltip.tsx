import { useLayoutEffect, useRef, type KeyboardEvent, type ReactNode } from 'react'
import type { Side } from './place.ts'
import { hideTip, isTipOf, showTip } from './tooltipBubble.ts'

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
  // The element itself is asked, not a state: focus may come and go before React draws again.
  const isShown = () => anchor.current !== null && isTipOf(anchor.current)

  useLayoutEffect(() => {
    if (anchor.current !== null && isTipOf(anchor.current)) showTip(anchor.current, { words, keys, side })
  }, [words, keys, side])

  const show = () => {
    if (anchor.current !== null && !isShown()) showTip(anchor.current, { words, keys, side })
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
    if (anchor.current !== null) hideTip(anchor.current)
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
    </span>
  )
}
