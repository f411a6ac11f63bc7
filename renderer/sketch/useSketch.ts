/** A diagram's drawing, once it is there and for as long as it is wanted. */
import { useEffect, useReducer, useState } from 'react'
import type { SketchResult } from '../../shared/sketch/drawn.ts'
import { sketches } from '../workers/sketch.ts'

/** null until the text is drawn. Nothing is drawn before `isWanted`. */
export function useSketch(text: string, isWanted: boolean): SketchResult | null {
  const [, redraw] = useReducer((count: number) => count + 1, 0)
  const [failed, setFailed] = useState<{ readonly text: string; readonly result: SketchResult } | null>(null)
  const found = sketches.find(text) ?? (failed?.text === text ? failed.result : null)
  const isMissing = found === null
  useEffect(() => {
    if (!isMissing || !isWanted) return undefined
    let isOver = false
    const work = sketches.draw(text)
    void work.answer.then((result) => {
      if (isOver) return
      setFailed(result.ok ? null : { text, result })
      redraw()
    })
    return () => {
      isOver = true
      work.stop()
    }
  }, [text, isWanted, isMissing])
  return found
}

/** How far beyond what is in view diagrams are drawn already. */
const NEAR = '400px 0px'

/** Says whether an element has come near to what is in view. Put `ref` on it. */
export function useIsNear(): { readonly ref: (element: Element | null) => void; readonly isNear: boolean } {
  const [element, setElement] = useState<Element | null>(null)
  const [isNear, setNear] = useState(false)
  useEffect(() => {
    if (!element || isNear) return undefined
    const observer = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) setNear(true)
      },
      { rootMargin: NEAR },
    )
    observer.observe(element)
    return () => observer.disconnect()
  }, [element, isNear])
  return { ref: setElement, isNear }
}
