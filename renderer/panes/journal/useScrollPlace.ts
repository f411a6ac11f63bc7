/** Where the log begins: at its newest entry, or where the person left it; and the noting of where it is scrolled to. */
import { useLayoutEffect, useRef, type RefObject } from 'react'
import type { Virtualizer } from '@tanstack/react-virtual'
import type { JournalStore } from './journalState.ts'
import type { TopEntry } from './keptPlace.ts'
import type { LogRow } from './rows.ts'

type Log = Virtualizer<HTMLDivElement, Element>

/** Rows are measured as they come into the page, which moves those below; so many frames are waited for that to end. */
const MOST_FRAMES = 30
/** So many frames in a row must agree. */
const STEADY_FRAMES = 3

/** How long the log must be at rest before its place is looked at, in milliseconds: looking makes the page lay itself out. */
const REST = 120

/** @param reach how near to its end the log counts as being at its end, in CSS pixels */
export function useScrollPlace(
  rows: readonly LogRow[],
  store: JournalStore,
  log: Log,
  scroller: RefObject<HTMLDivElement | null>,
  reach: number,
): void {
  const rowsAtFirst = useRef(rows)
  useLayoutEffect(() => {
    const element = scroller.current
    if (!element) return undefined
    const { keeper } = store.getState()
    const { top } = keeper
    const at = top ? rowsAtFirst.current.findIndex(({ key }) => key === top.entry) : -1
    let stopReturning: (() => void) | null = null
    let timer: ReturnType<typeof setTimeout> | null = null
    if (top === null || at < 0) log.scrollToEnd()
    else {
      log.scrollToIndex(at, { align: 'start' })
      stopReturning = returnTo(element, top, store, () => (stopReturning = null))
    }
    const note = (): void => {
      timer = null
      // What the way back passes is no place of the person's.
      if (stopReturning || element.clientHeight === 0) return
      keeper.noteTop(store, log.isAtEnd(reach) ? null : topEntryIn(element))
    }
    const onScroll = (): void => {
      if (timer !== null) clearTimeout(timer)
      timer = setTimeout(note, REST)
    }
    element.addEventListener('scroll', onScroll, { passive: true })
    return () => {
      if (timer !== null) {
        clearTimeout(timer)
        note()
      }
      stopReturning?.()
      element.removeEventListener('scroll', onScroll)
    }
  }, [log, scroller, store, reach])
}

/** Brings an entry to where it stood, until it stays there or the person goes elsewhere. @returns how to stop */
function returnTo(element: HTMLElement, top: TopEntry, store: JournalStore, onDone: () => void): () => void {
  const { followed, focusCalls } = store.getState()
  const own = new AbortController()
  let [frames, steady] = [0, 0]
  const stop = (): void => {
    cancelAnimationFrame(frame)
    own.abort()
    onDone()
  }
  const step = (): void => {
    const now = store.getState()
    const isElsewhere = now.followed !== followed || now.focusCalls !== focusCalls
    if (isElsewhere || ++frames > MOST_FRAMES || steady >= STEADY_FRAMES) return stop()
    const off = belowTop(element, top.entry)
    if (off !== null && Math.abs(off - top.below) < 1) steady += 1
    else if (off !== null) {
      steady = 0
      element.scrollTop += off - top.below
    }
    frame = requestAnimationFrame(step)
  }
  let frame = requestAnimationFrame(step)
  for (const type of ['wheel', 'pointerdown', 'keydown'] as const)
    element.addEventListener(type, stop, { signal: own.signal, passive: true })
  return stop
}

/** How far below the log's upper edge an entry begins; null while it is not in the page. */
function belowTop(element: HTMLElement, id: string): number | null {
  const article = element.querySelector(`[data-entry="${CSS.escape(id)}"]`)
  return article ? article.getBoundingClientRect().top - element.getBoundingClientRect().top : null
}

function topEntryIn(element: HTMLElement): TopEntry | null {
  const edge = element.getBoundingClientRect().top
  for (const article of element.querySelectorAll<HTMLElement>('[data-entry]')) {
    const { top, bottom } = article.getBoundingClientRect()
    if (bottom > edge) return { entry: article.dataset.entry as TopEntry['entry'], below: top - edge }
  }
  return null
}
