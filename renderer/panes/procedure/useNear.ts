/** Which blocks of rows stand in or near the view of the pane that scrolls. */
import { useCallback, useEffect, useRef, useState } from 'react'

/** How far beyond the view rows are drawn, so that scrolling finds them drawn. */
const AHEAD = '600px 0px'

/** Called with whether the block is near, and with its height as drawn, in CSS pixels. */
type OnNear = (isNear: boolean, height: number) => void

/** Watches an element until the function that is returned is called. */
export type WatchNear = (element: Element, onNear: OnNear) => () => void

/**
 * One observer for all blocks of a list.
 * @returns a function that stays the same
 */
export function useWatchNear(): WatchNear {
  const observer = useRef<IntersectionObserver | null>(null)
  const watched = useRef(new Map<Element, OnNear>())
  useEffect(() => () => observer.current?.disconnect(), [])
  return useCallback((element, onNear) => {
    // Effects of children run first, so the observer is made by the first block.
    observer.current ??= new IntersectionObserver(
      (seen) => {
        for (const { target, isIntersecting, boundingClientRect } of seen)
          watched.current.get(target)?.(isIntersecting, boundingClientRect.height)
      },
      { root: element.closest('.st-scroll'), rootMargin: AHEAD },
    )
    const { current } = observer
    watched.current.set(element, onNear)
    current.observe(element)
    return () => {
      watched.current.delete(element)
      current.unobserve(element)
    }
  }, [])
}

/**
 * Whether a block is drawn, and how high its empty place is otherwise.
 * @param isKept drawn wherever it stands
 * @param usual its height in CSS lengths as long as it was never drawn
 */
export function useNear(watch: WatchNear, isKept: boolean, usual: string) {
  const root = useRef<HTMLOListElement>(null)
  const [isNear, setNear] = useState(false)
  const [height, setHeight] = useState<number | null>(null)
  const isDrawn = isNear || isKept
  const drawn = useRef(isDrawn)
  useEffect(() => {
    drawn.current = isDrawn
  })
  useEffect(() => {
    const element = root.current
    if (!element) return
    return watch(element, (now, high) => {
      if (!now && drawn.current && high > 0) setHeight(high)
      setNear(now)
    })
  }, [watch])
  return { root, isDrawn, place: height === null ? usual : `${height}px` }
}
