/** Keeps the newest entry in view while the room for the log changes, as when a long text makes the composer grow. */
import { useLayoutEffect, type RefObject } from 'react'
import type { Virtualizer } from '@tanstack/react-virtual'

/** @param reach how near to its end the log counts as being at its end, in CSS pixels */
export function useStayingAtEnd(
  log: Virtualizer<HTMLDivElement, Element>,
  scroller: RefObject<HTMLDivElement | null>,
  reach: number,
): void {
  useLayoutEffect(() => {
    const element = scroller.current
    if (!element) return undefined
    // The log begins at its end. Only scrolling tells where the person is; a change of room does not.
    let isAtEnd = true
    const onScroll = (): void => {
      isAtEnd = log.isAtEnd(reach)
    }
    const observer = new ResizeObserver(() => {
      if (isAtEnd) log.scrollToEnd()
    })
    element.addEventListener('scroll', onScroll)
    observer.observe(element)
    return () => {
      element.removeEventListener('scroll', onScroll)
      observer.disconnect()
    }
  }, [log, scroller, reach])
}
