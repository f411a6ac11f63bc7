/**
 * The pointer in the gaps, while there are ribbons. They are found by their distance, so that nothing lies over the
 * splitters: a press that stays where it is belongs to the ribbon, one that moves drags the splitter.
 */
import type { Goal } from './hits.ts'
import type { LiveRibbons } from './live.ts'

/** A press that moves further than this is a drag, in CSS pixels. */
const STILL = 4

/** Listens in a frame until stopped. @returns how to stop */
export function listenInGaps(frame: HTMLElement, live: LiveRibbons, onGo: (goal: Goal) => void): () => void {
  let pressed: { readonly x: number; readonly y: number } | null = null
  const own = new AbortController()
  const on = <K extends keyof HTMLElementEventMap>(
    type: K,
    listen: (event: HTMLElementEventMap[K]) => void,
  ): void => frame.addEventListener(type, listen, { capture: true, signal: own.signal })
  const gapAt = ({ target }: Event): HTMLElement | null =>
    target instanceof Element ? target.closest<HTMLElement>('.st-gap') : null
  const findAt = (event: MouseEvent) => (gapAt(event) ? live.findAt(event.clientX, event.clientY) : null)
  const point = (event: MouseEvent): void => {
    const at = event.buttons === 0 ? findAt(event) : null
    live.point(at)
    frame.toggleAttribute('data-at-ribbon', at !== null)
  }
  on('pointermove', point)
  on('pointerdown', (event) => {
    pressed = event.button === 0 && findAt(event) ? { x: event.clientX, y: event.clientY } : null
  })
  // The keyboard stays at what the ribbons belong to, or they would be gone before the press is over.
  on('mousedown', (event) => {
    if (pressed) event.preventDefault()
  })
  on('click', (event) => {
    const from = pressed
    pressed = null
    if (!from || Math.hypot(event.clientX - from.x, event.clientY - from.y) > STILL) return
    const at = live.findAt(from.x, from.y)
    const goal = at && live.goalOf(at)
    if (!goal) return
    event.preventDefault()
    event.stopPropagation()
    onGo(goal)
  })
  frame.addEventListener('pointerleave', () => live.point(null), { signal: own.signal })
  return () => {
    own.abort()
    frame.removeAttribute('data-at-ribbon')
  }
}
