/** The journal's entries: a virtual list of rows with measured heights that starts at the newest, or where it was left, and stays there. */
import { useCallback, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import { defaultRangeExtractor, type Range, type VirtualItem } from '@tanstack/react-virtual'
import { useStore } from 'zustand'
import { Button } from '../../ui/index.ts'
import { MoveDownIcon } from '../../ui/icons.tsx'
import { useToldOrder } from '../../ribbons/order.ts'
import { EntryBlock } from './Entry.tsx'
import { isInEditor } from './isTyping.ts'
import { focusEntry, type JournalState, type JournalStore } from './journalState.ts'
import { nextEntry, type DayRow, type LogRow } from './rows.ts'
import { SelectionButton } from './SelectionButton.tsx'
import { useFollowing } from './useFollowing.ts'
import { useLogRows } from './useLogRows.ts'
import { useReadingAhead } from './useReadingAhead.ts'
import { useScrollPlace } from './useScrollPlace.ts'
import { isAtEndOf, useStayingAtEnd } from './useStayingAtEnd.ts'

/** How near to its end the log counts as being at its end, in CSS pixels. */
const END_REACH = 48

export interface LogProps {
  readonly rows: readonly LogRow[]
  readonly count: number
  readonly store: JournalStore
}

export function Log({ rows, count, store }: LogProps) {
  const scroller = useRef<HTMLDivElement>(null)
  const state = useStore(store)
  const { rangeOf, headAt } = useKeptRows(rows, state)
  const { log: virtualizer, measure } = useLogRows(rows, scroller, rangeOf, END_REACH)
  useScrollPlace(rows, store, virtualizer, scroller, END_REACH)
  useFollowing(rows, store, virtualizer, scroller)
  useStayingAtEnd(virtualizer, scroller, END_REACH, store)
  const { startIndex, endIndex } = virtualizer.range ?? { startIndex: 0, endIndex: 0 }
  useReadingAhead(rows, startIndex, endIndex)
  const isAtEnd = virtualizer.scrollElement === null || isAtEndOf(virtualizer, END_REACH)
  const current = state.current ?? lastEntryOf(rows)
  return (
    <div className="st-log-frame">
      <div
        ref={scroller}
        className="st-log-scroll st-scroll"
        onKeyDown={(event) => onLogKey(rows, store, event)}
      >
        <ol className="st-log" aria-label="Entries" style={{ height: virtualizer.getTotalSize() }}>
          {virtualizer.getVirtualItems().map((item) => (
            <Row
              key={item.key}
              row={rows[item.index]!}
              item={item}
              isHead={item.index === headAt.current}
              count={count}
              state={state}
              current={current}
              store={store}
              measure={measure}
            />
          ))}
        </ol>
        <SelectionButton scroller={scroller} />
      </div>
      {isAtEnd ? null : <ToNewest rows={rows} onGo={() => virtualizer.scrollToEnd()} />}
    </div>
  )
}

function lastEntryOf(rows: readonly LogRow[]): string | null {
  return rows.at(-1)?.key ?? null
}

/**
 * Which rows stay in the page beyond those in view: the head of the day in view, the entry that the keyboard is at, those
 * being amended, tagged or picked from, and the one that something is dragged out of.
 */
function useKeptRows(rows: readonly LogRow[], state: JournalState) {
  const headAt = useRef(-1)
  const indexes = useMemo(() => new Map<string, number>(rows.map(({ key }, at) => [key, at])), [rows])
  useToldOrder('journal', indexes)
  const heads = useMemo(() => rows.flatMap((row, at) => (row.kind === 'day' ? [at] : [])), [rows])
  const { current, amending, tagging, placing, timing, naming, picking, listing, dragged } = state
  const rangeOf = useCallback(
    (range: Range): number[] => {
      headAt.current = heads.filter((at) => at <= range.startIndex).at(-1) ?? -1
      const kept = [
        current,
        dragged,
        ...amending,
        ...tagging,
        ...placing,
        ...timing,
        ...naming,
        ...picking,
        ...listing,
      ].flatMap((id) => (id === null ? [] : (indexes.get(id) ?? [])))
      const last = rows.length - 1
      const all = new Set([headAt.current, last, ...kept, ...defaultRangeExtractor(range)])
      return [...all].filter((at) => at >= 0).sort((a, b) => a - b)
    },
    [heads, indexes, rows, current, amending, tagging, placing, timing, naming, picking, listing, dragged],
  )
  return { rangeOf, headAt }
}

interface RowProps {
  readonly row: LogRow
  readonly item: VirtualItem
  readonly isHead: boolean
  readonly count: number
  readonly state: JournalState
  readonly current: string | null
  readonly store: JournalStore
  readonly measure: (element: HTMLElement | null) => void
}

function Row({ row, item, isHead, count, state, current, store, measure }: RowProps) {
  const style = isHead ? undefined : { transform: `translateY(${item.start}px)` }
  if (row.kind === 'day')
    return (
      <li
        ref={measure}
        data-index={item.index}
        className={isHead ? 'st-log-row--head' : 'st-log-row'}
        style={style}
      >
        <DayHead row={row} />
      </li>
    )
  const { id } = row.entry
  return (
    <li
      ref={measure}
      data-index={item.index}
      className={row.parent ? 'st-log-row st-log-row--added' : 'st-log-row'}
      style={style}
      aria-posinset={row.place}
      aria-setsize={count}
    >
      <EntryBlock
        row={row}
        store={store}
        isCurrent={id === current}
        isAmending={state.amending.has(id)}
        isTagging={state.tagging.has(id)}
        isPlacing={state.placing.has(id)}
        isTiming={state.timing.has(id)}
        isNaming={state.naming.has(id)}
        isPicking={state.picking.has(id)}
        isListing={state.listing.has(id)}
        isUnfolded={state.unfolded.has(id)}
      />
    </li>
  )
}

function DayHead({ row }: { readonly row: DayRow }) {
  return (
    <div className="st-log-day">
      <span className="st-log-day-name">{row.name}</span>
      {row.offset === null ? null : <span className="st-log-day-offset">{row.offset}</span>}
    </div>
  )
}

/** Arrows and Home and End move from entry to entry, unless they belong to something within one. */
function onLogKey(rows: readonly LogRow[], store: JournalStore, event: KeyboardEvent): void {
  if (
    isInEditor(event.target) ||
    event.defaultPrevented ||
    event.altKey ||
    event.ctrlKey ||
    event.metaKey ||
    event.shiftKey
  )
    return
  const article = (event.target as Element).closest<HTMLElement>('[data-entry]')
  const isOnEntry = article !== null && (event.target as Element).closest('[role="menu"]') === null
  if (!isOnEntry) return
  const next = nextEntry(rows, article.dataset.entry!, event.key)
  if (!next) return
  event.preventDefault()
  focusEntry(store, next)
}

/** Shown while the newest entries are out of view. */
function ToNewest({ rows, onGo }: { readonly rows: readonly LogRow[]; readonly onGo: () => void }) {
  const [seen] = useState(rows.length)
  const fresh = rows.slice(seen).filter(({ kind }) => kind === 'entry').length
  const words = fresh === 0 ? 'To the newest' : `${fresh} new ${fresh === 1 ? 'entry' : 'entries'}`
  return (
    <div className="st-log-newest">
      <Button icon={MoveDownIcon} onClick={onGo}>
        {words}
      </Button>
    </div>
  )
}
