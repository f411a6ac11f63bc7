/** Keeps the newest entry in view while the room for the log changes, as when a long text makes the composer grow. */
import { useLayoutEffect, type RefObject } from 'react'
import type { Virtualizer } from '@tanstack/react-virtual'
import type { JournalStore } from './journalState.ts'

/**
 * Whether a log is scrolled to within `reach` CSS pixels of its end, by what it knows of itself. Reading it off the page
 * would have the page laid out twice for each turn of the wheel.
 */
export function isAtEndOf(log: Virtualizer<HTMLDivElement, Element>, reach: number): boolean {
  const room = log.scrollRect?.height ?? 0
  return log.getTotalSize() - room - (log.scrollOffset ?? 0) <= reach
}

/** @param reach how near to its end the log counts as being at its end, in CSS pixels */
export function useStayingAtEnd(
  log: Virtualizer<HTMLDivElement, Element>,
  scroller: RefObject<HTMLDivElement | null>,
  reach: number,
  store: JournalStore,
): void {
  useLayoutEffect(() => {
    const element = scroller.current
    if (!element) return undefined
    // Only scrolling tells where the person is; a change of room does not.
    let isAtEnd = store.getState().keeper.top === null
    const onScroll = (): void => {
      isAtEnd = element.scrollHeight - element.clientHeight - element.scrollTop <= reach
    }
    const observer = new ResizeObserver(() => {
      if (isAtEnd) log.scrollToEnd()
    })
    // What is on the page counts, not what the log knows already of rows that are to be drawn; and before the log draws them,
    // so that asking does not have the page laid out.
    element.addEventListener('scroll', onScroll, { capture: true })
    observer.observe(element)
    return () => {
      element.removeEventListener('scroll', onScroll, { capture: true })
      observer.disconnect()
    }
  }, [log, scroller, reach, store])
}
