/** The headings of a text, nested, to jump to. */
import { useEffect, useMemo, useRef, type KeyboardEvent } from 'react'
import { nextPlace, placeOfTyped } from '../../../ui/roving.ts'
import { depthsOf, type Heading } from './outline.ts'

export interface OutlinePanelProps {
  readonly headings: readonly Heading[]
  /** The heading under which the reader is; -1 before the first. */
  readonly now: number
  readonly onJump: (heading: Heading) => void
  readonly onClose: () => void
}

/** One stop for Tab; arrows, Home, End and letters move, Enter jumps, Escape closes. */
export function OutlinePanel({ headings, now, onJump, onClose }: OutlinePanelProps) {
  const list = useRef<HTMLElement>(null)
  const depths = useMemo(() => depthsOf(headings), [headings])
  const buttons = () => [...(list.current?.querySelectorAll<HTMLElement>('button') ?? [])]
  useEffect(() => {
    const current = list.current?.querySelector<HTMLElement>('[aria-current]')
    if (!list.current?.contains(document.activeElement)) current?.scrollIntoView({ block: 'nearest' })
  }, [now])
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape') {
      event.preventDefault()
      event.stopPropagation()
      onClose()
      return
    }
    if (event.altKey || event.ctrlKey || event.metaKey) return
    const all = buttons()
    const place = all.findIndex((button) => button === document.activeElement)
    const words = headings.map((heading) => heading.words)
    const next =
      nextPlace(event.key, place, all.length, 'vertical') ??
      (event.key.length === 1 && event.key !== ' ' ? placeOfTyped(event.key, words, place) : null)
    if (next === null) return
    event.preventDefault()
    all[next]?.focus()
  }
  return (
    <nav ref={list} className="st-outline st-scroll" aria-label="Outline of headings" onKeyDown={onKeyDown}>
      <ol>
        {headings.map((heading, at) => (
          <li key={`${heading.from}`}>
            <button
              type="button"
              className="st-outline-line"
              style={{ paddingInlineStart: `${0.7 + Math.min(depths[at]!, 5) * 0.9}rem` }}
              tabIndex={at === Math.max(0, now) ? 0 : -1}
              aria-current={at === now ? 'location' : undefined}
              aria-label={`${heading.words}, level ${depths[at]! + 1}`}
              onClick={() => onJump(heading)}
            >
              {heading.words}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  )
}
