/** Which rows of a long list stand in or near the view of the pane that scrolls, and how high they are. */
import { useCallback, useEffect, useRef, useState, type RefObject } from 'react'

/** How far beyond the view rows are drawn, so that scrolling finds them drawn. */
const AHEAD = '600px 0px'
/** How far beyond it they stay drawn: farther, so that none whose place was guessed too high comes and goes by turns. */
const BEHIND = '900px 0px'

export interface Near {
  readonly isNear: (row: string) => boolean
  /** Of a row as it was last drawn, in CSS pixels; null where it never was. */
  readonly heightOf: (row: string) => number | null
}

/**
 * Watches what is drawn of a list. Each of its elements says in `data-step` which row it is, or in `data-rows`, with
 * spaces between, for which rows it keeps the place; they count as near with it, until they are drawn and tell themselves.
 * @param isWatched else nothing is near
 */
export function useNear(list: RefObject<HTMLElement | null>, isWatched: boolean): Near {
  const [near, setNear] = useState<ReadonlySet<string>>(() => new Set())
  const heights = useRef(new Map<string, number>())
  const observers = useRef<Observers | null>(null)
  const watched = useRef<ReadonlySet<HTMLElement>>(new Set())
  const onSeen = useCallback((all: readonly IntersectionObserverEntry[]) => {
    // Of what was taken away before it was let go Chrome 114 still says that it has no height and stands nowhere.
    const seen = all.filter(({ target }) => target.isConnected)
    for (const { target, boundingClientRect } of seen) {
      const { step } = (target as HTMLElement).dataset
      if (step !== undefined && boundingClientRect.height > 0)
        heights.current.set(step, boundingClientRect.height)
    }
    setNear((before) => withSeen(before, seen))
  }, [])
  useEffect(
    () => () => {
      observers.current?.rows.disconnect()
      observers.current?.places.disconnect()
      observers.current = null
      watched.current = new Set()
    },
    [],
  )
  // Whenever it was drawn: rows come and go, and places in their stead.
  useEffect(() => {
    const there = new Set(isWatched && list.current ? watchedIn(list.current) : [])
    observers.current ??= observersIn(list.current?.closest('.st-scroll') ?? null, onSeen)
    for (const one of watched.current) if (!there.has(one)) observerOf(one, observers.current).unobserve(one)
    for (const one of there) if (!watched.current.has(one)) observerOf(one, observers.current).observe(one)
    watched.current = there
  })
  return { isNear: (row) => near.has(row), heightOf: (row) => heights.current.get(row) ?? null }
}

interface Observers {
  readonly rows: IntersectionObserver
  readonly places: IntersectionObserver
}

const observersIn = (root: Element | null, onSeen: IntersectionObserverCallback): Observers => ({
  rows: new IntersectionObserver(onSeen, { root, rootMargin: BEHIND }),
  places: new IntersectionObserver(onSeen, { root, rootMargin: AHEAD }),
})

const watchedIn = (list: HTMLElement): NodeListOf<HTMLElement> =>
  list.querySelectorAll(':scope > :is([data-step], [data-rows])')

const observerOf = ({ dataset }: HTMLElement, { rows, places }: Observers): IntersectionObserver =>
  dataset.rows === undefined ? rows : places

function withSeen(
  before: ReadonlySet<string>,
  seen: readonly IntersectionObserverEntry[],
): ReadonlySet<string> {
  const now = new Set(before)
  for (const { target, isIntersecting } of seen)
    for (const row of rowsOf(target as HTMLElement))
      if (isIntersecting) now.add(row)
      else now.delete(row)
  return isSame(now, before) ? before : now
}

const isSame = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
  a.size === b.size && [...a].every((row) => b.has(row))

const rowsOf = ({ dataset }: HTMLElement): string[] => (dataset.rows ?? dataset.step ?? '').split(' ')
