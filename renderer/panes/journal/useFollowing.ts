/** Brings the log to where a person is sent: to an entry by the keyboard, to words by a trace or a carry. */
import { useEffect, useLayoutEffect, useRef, type RefObject } from 'react'
import type { Virtualizer } from '@tanstack/react-virtual'
import { useStore } from 'zustand'
import type { EntryId } from '../../../shared/lab/ids.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { clearFilter, type JournalStore } from './journalState.ts'
import { isTyping } from './isTyping.ts'
import type { LogRow } from './rows.ts'

type Log = Virtualizer<HTMLDivElement, Element>
type Scroller = RefObject<HTMLDivElement | null>

export function useFollowing(
  rows: readonly LogRow[],
  store: JournalStore,
  log: Log,
  scroller: Scroller,
): void {
  useKeyboardFollowing(rows, store, log, scroller)
  useFocusFollowing(rows, store, log, scroller)
}

function useKeyboardFollowing(
  rows: readonly LogRow[],
  store: JournalStore,
  log: Log,
  scroller: Scroller,
): void {
  const calls = useStore(store, (state) => state.focusCalls)
  const answered = useRef(calls)
  useLayoutEffect(() => {
    // Only a call moves the focus; rows that come and go do not.
    if (answered.current === calls) return
    answered.current = calls
    const { current } = store.getState()
    const at = rows.findIndex(({ key }) => key === current)
    if (current === null || at < 0) return
    log.scrollToIndex(at, { align: 'auto' })
    articleOf(scroller, current)?.focus({ preventScroll: true })
  }, [calls, rows, store, log, scroller])
}

/** Goes to an entry that the window's focus names. Each call is followed once, also when the log was away meanwhile. */
function useFocusFollowing(rows: readonly LogRow[], store: JournalStore, log: Log, scroller: Scroller): void {
  const workspace = useWorkspace()
  const focus = useWorkspaceState((state) => state.focus)
  useEffect(() => {
    if (focus?.node.kind !== 'entry' || focus.serial <= store.getState().followed) return
    const { id } = focus.node
    const at = rows.findIndex(({ key }) => key === id)
    if (at < 0) {
      // A filter may hide it; the log is drawn again without one.
      if (workspace.state.view?.entries.has(id)) clearFilter(store)
      return
    }
    store.setState({ followed: focus.serial, current: id })
    if (focus.ranges.length > 0) unfold(store, id, workspace.state.view?.withdrawn.has(id) ?? false)
    log.scrollToIndex(at, { align: 'center' })
    // Rows are measured when they come into the page; the second frame knows their heights.
    requestAnimationFrame(() => requestAnimationFrame(() => arriveAt(scroller, id)))
  }, [focus, rows, store, log, scroller, workspace])
}

function unfold(store: JournalStore, id: EntryId, isWithdrawn: boolean): void {
  if (isWithdrawn) store.setState(({ unfolded }) => ({ unfolded: new Set([...unfolded, id]) }))
}

function arriveAt(scroller: Scroller, id: EntryId): void {
  const article = articleOf(scroller, id)
  article?.querySelector('mark, .st-mark')?.scrollIntoView({ block: 'nearest' })
  if (article && !isTyping(document.activeElement)) article.focus({ preventScroll: true })
}

function articleOf(scroller: Scroller, id: EntryId): HTMLElement | null {
  return scroller.current?.querySelector<HTMLElement>(`[data-entry="${CSS.escape(id)}"]`) ?? null
}
