/** Buttons in a row that are one stop for Tab: arrows move among them, and when one goes its neighbour has the focus. */
import { useLayoutEffect, useRef, useState, type FocusEvent, type KeyboardEvent, type RefObject } from 'react'
import { nextPlace } from '../../ui/roving.ts'

export interface Roving {
  readonly ref: RefObject<HTMLUListElement | null>
  /** The place whose button is in reach of Tab. */
  readonly place: number
  onFocus(event: FocusEvent): void
  onBlur(event: FocusEvent): void
  onKeyDown(event: KeyboardEvent): void
}

/**
 * @param selector finds the buttons within `ref`
 * @param count how many there are
 * @param toFallBack gets the focus when the last one went
 */
export function useRoving(selector: string, count: number, toFallBack: () => void): Roving {
  const ref = useRef<HTMLUListElement>(null)
  const [place, setPlace] = useState(0)
  const last = useRef<Element | null>(null)
  const buttons = (): HTMLElement[] => [...(ref.current?.querySelectorAll<HTMLElement>(selector) ?? [])]
  const current = Math.max(0, Math.min(place, count - 1))
  useLayoutEffect(() => {
    const gone = last.current
    // Who went elsewhere is left there.
    if (!gone || gone.isConnected || document.activeElement !== document.body) return
    last.current = null
    const next = buttons()[current]
    if (next) next.focus()
    else toFallBack()
  })
  return {
    ref,
    place: current,
    onFocus: ({ target }) => {
      const at = buttons().indexOf(target as HTMLElement)
      if (at < 0) return
      last.current = target
      setPlace(at)
    },
    onBlur: ({ target, relatedTarget }) => {
      if (relatedTarget) last.current = null
      // A blur to nowhere is a press beside everything, unless the button itself is going.
      else setTimeout(() => target.isConnected && last.current === target && (last.current = null))
    },
    onKeyDown: (event) => {
      const at = buttons().indexOf(event.target as HTMLElement)
      const next = at < 0 ? null : nextPlace(event.key, at, count, 'both')
      if (next === null || event.altKey || event.ctrlKey || event.metaKey) return
      event.preventDefault()
      event.stopPropagation()
      buttons()[next]?.focus()
    },
  }
}
