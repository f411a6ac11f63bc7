/** Follows the keyboard and the pointer over the panes, so that ribbons are shown for what they are at. */
import { useEffect } from 'react'
import { isTyping } from '../panes/journal/isTyping.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { setRibbons, useRibbons } from './state.ts'
import { subjectOfFocus, subjectOfPointer, type Known, type Subject } from './subject.ts'

/** The pointer must rest on a thing for so long before its ribbons are shown, in milliseconds: who passes by wants none. */
const REST = 160
/** Ribbons stay for so long after the pointer went, so that it can follow them into the gap. */
const LINGER = 450

/** What things are told apart by now; null while no project is open. */
export function knownNow({ state }: Workspace): Known | null {
  const { view, labSources } = state
  return view && labSources ? { view, sources: labSources } : null
}

export function useWatching(): void {
  const workspace = useWorkspace()
  useEffect(() => {
    const frame = document.querySelector<HTMLElement>('.st-frame')
    if (!frame) return undefined
    const stops = [followKeyboard(workspace, frame), followPointer(workspace, frame)]
    return () => {
      for (const stop of stops) stop()
      setRibbons({ focused: null, pointed: null })
    }
  }, [workspace])
}

function followKeyboard(workspace: Workspace, frame: HTMLElement): () => void {
  const own = new AbortController()
  const look = (element: Element): void => {
    const known = knownNow(workspace)
    // Who goes to a splitter has not gone to another thing.
    if (!known || element.closest('.st-gap')) return
    setRibbons({ focused: isTyping(element) ? null : subjectOfFocus(element, known) })
  }
  frame.addEventListener('focusin', ({ target }) => look(target as Element), { signal: own.signal })
  // In a source that is read the cursor moves without the focus.
  document.addEventListener(
    'selectionchange',
    () => {
      const { activeElement } = document
      if (activeElement?.closest('.st-reading-text') && frame.contains(activeElement)) look(activeElement)
    },
    { signal: own.signal },
  )
  return () => own.abort()
}

function followPointer(workspace: Workspace, frame: HTMLElement): () => void {
  const own = new AbortController()
  let timer = 0
  let last: Element | null = null
  const later = (wait: number, find: () => Subject | null): void => {
    clearTimeout(timer)
    timer = window.setTimeout(() => setRibbons({ pointed: find() }), wait)
  }
  const onMove = (event: PointerEvent): void => {
    const target = event.target as Element
    if (event.pointerType === 'touch' || event.buttons !== 0) return
    // In a text to be read each place is another thing.
    if (target === last && !target.closest('.st-reading-text')) return
    last = target
    clearTimeout(timer)
    if (target.closest('.st-gap')) return
    const { clientX, clientY } = event
    const find = (): Subject | null => {
      const known = knownNow(workspace)
      return known && target.isConnected ? subjectOfPointer(target, clientX, clientY, known) : null
    }
    later(useRibbons.getState().pointed ? LINGER : REST, find)
  }
  frame.addEventListener('pointermove', onMove, { signal: own.signal, passive: true })
  frame.addEventListener(
    'pointerleave',
    () => {
      last = null
      later(LINGER, () => null)
    },
    { signal: own.signal },
  )
  // Who types looks at the text. The next move of the pointer shows them again.
  frame.addEventListener(
    'beforeinput',
    () => {
      last = null
      clearTimeout(timer)
      if (useRibbons.getState().pointed) setRibbons({ pointed: null })
    },
    { signal: own.signal },
  )
  return () => {
    own.abort()
    clearTimeout(timer)
  }
}
