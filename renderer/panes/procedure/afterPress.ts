/** Waiting for the end of a press of the pointer. */
import { useEffect, useRef } from 'react'

/**
 * Returns a function that calls back once the press of the pointer that is under way is over, with the click or the drag
 * that it became; at once where nothing is pressed. So a text that loses the focus stays where it is until a click
 * beside it has found its target, or a fragment has been dropped into it.
 */
export function useAfterPress(): (then: () => void) => void {
  const press = useRef({ isDown: false, isDrag: false, waiting: null as (() => void) | null })
  useEffect(() => {
    const end = (): void => {
      const { waiting } = press.current
      press.current = { isDown: false, isDrag: false, waiting: null }
      if (waiting) setTimeout(waiting)
    }
    const listeners: Record<string, () => void> = {
      pointerdown: () => {
        press.current.isDown = true
      },
      dragstart: () => {
        press.current.isDrag = true
      },
      // A drag ends the pointer's own events; anything else that does has ended the press.
      pointercancel: () => {
        if (!press.current.isDrag) end()
      },
      pointerup: end,
      dragend: end,
    }
    for (const [name, listen] of Object.entries(listeners)) document.addEventListener(name, listen, true)
    return () => {
      for (const [name, listen] of Object.entries(listeners)) document.removeEventListener(name, listen, true)
    }
  }, [])
  return (then) => {
    if (press.current.isDown) press.current.waiting = then
    else then()
  }
}
