/** The keyboard in a list whose lines go away as they are dealt with: it stays in the list, at the next line. */
import {
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
  type FocusEvent,
  type KeyboardEvent,
  type RefObject,
} from 'react'
import { nextPlace } from '../ui/roving.ts'
import { keyAfter } from './listed.ts'

export interface ListKeyboard {
  /** The line that holds the list's stop for Tab. */
  readonly stop: string | null
  /** Moves the keyboard to a line, or to the list as a whole where there is none. */
  readonly focus: (key: string | null) => void
  /** For the list's element. */
  readonly attributes: {
    readonly ref: RefObject<HTMLDivElement | null>
    readonly onFocus: (event: FocusEvent) => void
    readonly onBlur: (event: FocusEvent) => void
    readonly onKeyDown: (event: KeyboardEvent) => void
  }
}

/**
 * @param keys of the lines in their order; each line's element has its key in `data-key`
 * @param first the line that the keyboard begins at
 */
export function useListKeyboard(keys: readonly string[], first: string | null): ListKeyboard {
  const list = useRef<HTMLDivElement>(null)
  const [current, setCurrent] = useState<string | null>(first)
  const stop = current !== null && keys.includes(current) ? current : (keys[0] ?? null)
  const before = useRef(keys)
  const hasKeyboard = useRef(false)
  const focus = (key: string | null): void => {
    const line = key === null ? null : lineOf(list.current, key)
    ;(line ?? list.current)?.focus()
  }
  useEffect(() => {
    // A press beside the list takes the keyboard away, though nothing else may take it.
    const onPress = ({ target }: PointerEvent): void => {
      if (target instanceof Node && !list.current?.contains(target)) hasKeyboard.current = false
    }
    document.addEventListener('pointerdown', onPress, true)
    return () => document.removeEventListener('pointerdown', onPress, true)
  }, [])
  useLayoutEffect(() => {
    const { activeElement } = document
    const isLost = activeElement === document.body || activeElement === null
    if (hasKeyboard.current && isLost && current !== null)
      focus(keys.includes(current) ? current : keyAfter(before.current, current, keys))
    // Who waits at an empty list is led to its first line once there is one.
    else if (activeElement === list.current && before.current.length === 0) focus(keys[0] ?? null)
    before.current = keys
  })
  return {
    stop,
    focus,
    attributes: {
      ref: list,
      onFocus: ({ target }) => {
        hasKeyboard.current = true
        const key = keyAt(target)
        if (key !== null) setCurrent(key)
      },
      onBlur: ({ relatedTarget }) => {
        if (relatedTarget instanceof Node && !list.current?.contains(relatedTarget))
          hasKeyboard.current = false
      },
      onKeyDown: (event) => {
        if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
        if (isField(event.target)) return
        const next = nextPlace(event.key, keys.indexOf(keyAt(event.target) ?? ''), keys.length, 'vertical')
        if (next === null) return
        event.preventDefault()
        focus(keys[next]!)
      },
    },
  }
}

/** Keys belong to the field that is being typed in. */
export const isField = (target: EventTarget): boolean =>
  target instanceof Element && target.closest('input, textarea, select') !== null

const keyAt = (target: EventTarget): string | null =>
  target instanceof Element ? (target.closest<HTMLElement>('[data-key]')?.dataset.key ?? null) : null

const lineOf = (list: HTMLElement | null, key: string): HTMLElement | null =>
  [...(list?.querySelectorAll<HTMLElement>('[data-key]') ?? [])].find((one) => one.dataset.key === key) ??
  null
