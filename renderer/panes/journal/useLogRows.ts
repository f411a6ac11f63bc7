/** The virtual list behind the log: which rows are in the page, where they stand, and when they are drawn anew. */
import { useCallback, useLayoutEffect, useReducer, useRef, type RefObject } from 'react'
import { flushSync } from 'react-dom'
import { useVirtualizer, type Range, type Virtualizer } from '@tanstack/react-virtual'
import type { LogRow } from './rows.ts'

/** What a row is taken to measure before it is drawn: a day's head, an entry. CSS pixels. */
export const HEAD_HEIGHT = 34
const ENTRY_HEIGHT = 76
/** So many rows beyond those in view are in the page on either side: they are there before a turn of the wheel asks for them. */
const AHEAD = 10

type Log = Virtualizer<HTMLDivElement, Element>

export interface LogRows {
  readonly log: Log
  /** Takes the element of a row, which is watched for its height. */
  readonly measure: (element: HTMLElement | null) => void
}

/**
 * @param rangeOf which rows are to be in the page for those in view
 * @param reach how near to its end the log counts as being at its end, in CSS pixels
 */
export function useLogRows(
  rows: readonly LogRow[],
  scroller: RefObject<HTMLDivElement | null>,
  rangeOf: (range: Range) => number[],
  reach: number,
): LogRows {
  const [, drawAnew] = useReducer((times: number) => times + 1, 0)
  const drawn = useRef<Drawn>({ starts: new Map(), size: 0 })
  const isMeasuring = useRef(false)
  const log = useVirtualizer({
    count: rows.length,
    getScrollElement: () => scroller.current,
    estimateSize: (index) => (rows[index]!.kind === 'day' ? HEAD_HEIGHT : ENTRY_HEIGHT),
    getItemKey: useCallback((index: number) => rows[index]!.key, [rows]),
    rangeExtractor: rangeOf,
    overscan: AHEAD,
    anchorTo: 'end',
    followOnAppend: true,
    scrollEndThreshold: reach,
    scrollPaddingStart: HEAD_HEIGHT,
    paddingEnd: 8,
    useFlushSync: false,
    // Rows that are only wanted beyond the view can wait until the frame is out; what is in view cannot.
    onChange: (instance: Log, isSync: boolean) => {
      if (isSync && !isMeasuring.current && !isInView(instance, drawn.current)) flushSync(drawAnew)
    },
  })
  useLayoutEffect(() => {
    const starts = new Map(log.getVirtualItems().map(({ key, start }) => [key, start]))
    drawn.current = { starts, size: log.getTotalSize() }
  })
  const measure = useCallback(
    (element: HTMLElement | null): void => {
      // Rows are taken while React is at work, which then cannot be asked to draw at once.
      isMeasuring.current = true
      log.measureElement(element)
      isMeasuring.current = false
    },
    [log],
  )
  return { log, measure }
}

/** What was drawn last: where each row begins, and how high the whole is. CSS pixels. */
interface Drawn {
  readonly starts: ReadonlyMap<unknown, number>
  readonly size: number
}

/** Whether every row in view is in the page where it belongs. */
function isInView(log: Log, { starts, size }: Drawn): boolean {
  const { range } = log
  if (!range || log.getTotalSize() !== size) return false
  return log
    .getVirtualItems()
    .every(
      ({ index, key, start }) =>
        index < range.startIndex || index > range.endIndex || starts.get(key) === start,
    )
}
