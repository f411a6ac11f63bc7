/** The rows that are in view, however many there are; keys move over all of them. */
import {
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  type KeyboardEvent,
  type MouseEvent,
  type RefObject,
} from 'react'
import { defaultRangeExtractor, useVirtualizer, type Range } from '@tanstack/react-virtual'
import { useStore } from 'zustand'
import type { SourceId } from '../../../../shared/lab/ids.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { useToldOrder } from '../../../ribbons/order.ts'
import { Button } from '../../../ui/index.ts'
import { MergeIcon } from '../../../ui/icons.tsx'
import { isAltLetter } from '../../../ui/keys.ts'
import { carrySource, isCarryKey, traceSource } from '../carryingSource.ts'
import { rowAfterKey, rowAfterTyping, type ListItem } from './items.ts'
import { chooseAll, chooseTo, endChoosing, goToRow, toggleChosen, type ListStore } from './listState.ts'
import { Row } from './Row.tsx'
import { idsOf, type Listed } from './useListed.ts'
import { groupWords } from './words.ts'

/** What a row is taken to measure before it is drawn, in CSS pixels. */
const ROW_HEIGHT = 66
/** Letters that are typed faster than this, in milliseconds, are one beginning of a title. */
const TYPING_PAUSE = 700

export interface VirtualRowsProps {
  readonly store: ListStore
  readonly listed: Listed
  /** The source that was read last. */
  readonly last: SourceId | null
  readonly onOpen: (id: SourceId) => void
}

export function VirtualRows({ store, listed, last, onOpen }: VirtualRowsProps) {
  const scroller = useRef<HTMLDivElement>(null)
  const { items, shown, filter } = listed
  const state = useStore(store)
  const { isChoosing, opened } = state
  const chosen = useMemo(() => new Set<string>(idsOf(listed.chosen)), [listed.chosen])
  const current = listed.shown.some(({ source }) => source.id === state.current)
    ? state.current
    : (shown[0]?.source.id ?? null)
  const indexes = useMemo(() => new Map(items.map(({ key }, at) => [key, at])), [items])
  useToldOrder('sources', indexes)
  const rangeExtractor = useCallback(
    (range: Range): number[] => {
      const kept = [current, ...opened.keys()].flatMap((id) => (id === null ? [] : (indexes.get(id) ?? [])))
      return [...new Set([...kept, ...defaultRangeExtractor(range)])].sort((a, b) => a - b)
    },
    [current, opened, indexes],
  )
  const virtualizer = useVirtualizer({
    count: items.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => ROW_HEIGHT,
    getItemKey: useCallback((index: number) => items[index]!.key, [items]),
    rangeExtractor,
    overscan: 8,
    paddingEnd: 16,
  })
  useKeyboardFollowing(store, indexes, scroller, (at) => virtualizer.scrollToIndex(at, { align: 'auto' }))
  const keepFocus = useKeptFocus(store, listed)
  const onRowKey = useRowKeys(store, listed, scroller, onOpen)
  const press = (event: MouseEvent, id: SourceId): void => {
    if (event.shiftKey) chooseTo(store, idsOf(shown), id)
    else if (event.ctrlKey || event.metaKey || isChoosing) toggleChosen(store, id)
    else onOpen(id)
  }
  const toItem = (item: ListItem, index: number, start: number) =>
    item.kind === 'same' ? (
      <li
        key={item.key}
        ref={virtualizer.measureElement}
        data-index={index}
        className="st-source-group"
        style={{ transform: `translateY(${start}px)` }}
      >
        <span>{groupWords(item.group)}</span>
        <Button
          look="quiet"
          icon={MergeIcon}
          onClick={() => store.setState({ merging: idsOf(item.group.members) })}
        >
          Merge…
        </Button>
      </li>
    ) : (
      <Row
        key={item.key}
        row={item.row}
        store={store}
        listed={listed}
        place={item.place}
        isCurrent={item.key === current}
        isLast={item.key === last}
        isChoosing={isChoosing}
        isChosen={chosen.has(item.key)}
        opened={opened.get(item.row.source.id) ?? null}
        index={index}
        start={start}
        measure={virtualizer.measureElement}
        onFocus={() => store.setState({ current: item.row.source.id })}
        onPress={(event) => press(event, item.row.source.id)}
        onRowKey={(event) => onRowKey(event, item.row.source.id)}
      />
    )
  return (
    <div ref={scroller} className="st-source-scroll st-scroll" tabIndex={-1} {...keepFocus}>
      <ul
        className="st-source-list"
        aria-label={filter.scope === 'project' ? 'Sources of this project' : 'Sources of the lab'}
        style={{ height: virtualizer.getTotalSize() }}
      >
        {virtualizer.getVirtualItems().map(({ index, start }) => toItem(items[index]!, index, start))}
      </ul>
    </div>
  )
}

type Scroller = RefObject<HTMLDivElement | null>

const openerIn = (scroller: Scroller, id: string): HTMLElement | null =>
  scroller.current?.querySelector<HTMLElement>(`[data-node="${id}"] > .st-source-open`) ?? null

/** Brings the keyboard to the row that was asked for, also when the list is drawn anew after reading. */
function useKeyboardFollowing(
  store: ListStore,
  indexes: ReadonlyMap<string, number>,
  scroller: Scroller,
  scrollTo: (at: number) => void,
): void {
  const calls = useStore(store, (state) => state.calls)
  const answered = useRef(-1)
  useLayoutEffect(() => {
    if (answered.current === calls) return
    const isFirst = answered.current === -1
    const { current } = store.getState()
    const at = current === null ? undefined : indexes.get(current)
    if (current === null || at === undefined) {
      answered.current = calls
      return
    }
    scrollTo(at)
    const opener = openerIn(scroller, current)
    // The first time no row is drawn yet; then the next time is the first.
    if (!opener) return
    answered.current = calls
    // When the list comes back, who is elsewhere is left there.
    if (!isFirst || document.activeElement === document.body) opener.focus({ preventScroll: true })
  })
}

/** When the row that has the keyboard leaves the list, the one in its place gets it. */
function useKeptFocus(store: ListStore, { shown }: Listed) {
  const held = useRef<{ readonly id: string; readonly place: number } | null>(null)
  useEffect(() => {
    if (!held.current || document.activeElement !== document.body) return
    const { id, place } = held.current
    if (shown.some(({ source }) => source.id === id)) return
    held.current = null
    const next = shown[Math.min(place, shown.length - 1)]
    if (next) goToRow(store, next.source.id)
    else document.querySelector<HTMLElement>('.st-list-tools input')?.focus()
  })
  return {
    onFocus: ({ target }: { readonly target: Element }) => {
      const id = target.closest<HTMLElement>('[data-node]')?.dataset.node
      if (id) held.current = { id, place: shown.findIndex(({ source }) => source.id === id) }
    },
    onBlur: ({
      target,
      relatedTarget,
    }: {
      readonly target: Element
      readonly relatedTarget: Element | null
    }) => {
      if (relatedTarget) held.current = null
      // A blur to nowhere is a press beside everything, unless the row itself is going.
      else
        setTimeout(
          () => target.isConnected && document.activeElement === document.body && (held.current = null),
        )
    },
  }
}

/** The keys of a row, as long as they are not meant for something within it. */
function useRowKeys(
  store: ListStore,
  { shown, byId }: Listed,
  scroller: Scroller,
  onOpen: (id: SourceId) => void,
): (event: KeyboardEvent, id: SourceId) => void {
  const workspace = useWorkspace()
  const typed = useRef({ letters: '', at: 0 })
  const ids = idsOf(shown)
  const page = (): number => Math.max(1, Math.floor((scroller.current?.clientHeight ?? 0) / ROW_HEIGHT) - 1)
  const place = (event: KeyboardEvent, at: number): number | null => {
    const { key, ctrlKey, altKey, metaKey, timeStamp } = event
    const moved = rowAfterKey(key, at, ids.length, page())
    if (moved !== null || key.length !== 1 || key === ' ' || ctrlKey || altKey || metaKey) return moved
    const isFresh = timeStamp - typed.current.at > TYPING_PAUSE
    typed.current = { letters: (isFresh ? '' : typed.current.letters) + key, at: timeStamp }
    return rowAfterTyping(typed.current.letters, shown, at)
  }
  const takeKey = (event: KeyboardEvent, id: SourceId): boolean => {
    const { key, ctrlKey, metaKey, altKey, shiftKey } = event
    const isCommand = (ctrlKey || metaKey) && !altKey
    if (isCarryKey(event)) carrySource(workspace, byId.get(id)!.source)
    else if (isAltLetter(event, 'T')) traceSource(workspace, byId.get(id)!.source)
    else if (isCommand && key.toLowerCase() === 'a') chooseAll(store, ids)
    else if (isCommand || altKey) return false
    else if (key === 'Enter') onOpen(id)
    else if (key === ' ') toggleChosen(store, id)
    else if (key === 'Escape') {
      if (!store.getState().isChoosing) return false
      endChoosing(store)
    } else {
      const next = place(event, ids.indexOf(id))
      const nextId = next === null ? undefined : ids[next]
      if (!nextId) return false
      if (shiftKey && /^(?:Arrow|Page|Home|End)/u.test(key)) chooseTo(store, ids, nextId)
      goToRow(store, nextId)
    }
    return true
  }
  return (event, id) => {
    if (!(event.target as Element).matches('.st-source-open') || !takeKey(event, id)) return
    event.preventDefault()
    event.stopPropagation()
  }
}
