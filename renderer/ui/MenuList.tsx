import { useRef, type KeyboardEvent } from 'react'
import { CheckIcon, type Icon } from './icons.tsx'
import { nextPlace, placeOfTyped } from './roving.ts'

export interface MenuItem {
  readonly kind?: 'item'
  readonly id: string
  readonly word: string
  readonly icon?: Icon | undefined
  /** A quiet word at the end of the line: keys, a count, what it will do. */
  readonly hint?: string | undefined
  /** Set for a line that is one choice among several. */
  readonly isChosen?: boolean | undefined
  /** Why it cannot be chosen now. The line stays readable and in reach of the keyboard. */
  readonly disabledBecause?: string | undefined
  readonly isDanger?: boolean | undefined
  readonly onChoose: () => void
}
export interface MenuRule {
  readonly kind: 'rule'
  readonly id: string
}
export interface MenuHeading {
  readonly kind: 'heading'
  readonly id: string
  readonly word: string
}
export type MenuLine = MenuItem | MenuRule | MenuHeading

export interface MenuListProps {
  readonly label: string
  readonly lines: readonly MenuLine[]
  /** The menu's work is over: something was chosen, or the person left it by a key. */
  readonly onDone: () => void
}

const forgetTypedAfterMs = 700

/** The lines of a menu (WAI-ARIA APG, menu pattern): arrows, Home, End, letters, Enter, Space, Escape, Tab leaves. */
export function MenuList({ label, lines, onDone }: MenuListProps) {
  const list = useRef<HTMLDivElement>(null)
  const typed = useRef({ letters: '', at: 0 })

  const onKeyDown = (event: KeyboardEvent) => {
    const buttons = [...(list.current?.querySelectorAll<HTMLElement>('[role^="menuitem"]') ?? [])]
    const place = buttons.findIndex((button) => button === document.activeElement)
    if (event.key === 'Escape' || event.key === 'Tab') {
      event.preventDefault()
      event.stopPropagation()
      onDone()
      return
    }
    const next = nextPlace(event.key, place, buttons.length, 'vertical') ?? placeAfterTyping(event, place)
    if (next === null) return
    event.preventDefault()
    buttons[next]?.focus()
  }

  const placeAfterTyping = (event: KeyboardEvent, place: number): number | null => {
    if (event.key.length !== 1 || event.key === ' ' || event.ctrlKey || event.metaKey || event.altKey)
      return null
    const isFresh = event.timeStamp - typed.current.at > forgetTypedAfterMs
    typed.current = { letters: (isFresh ? '' : typed.current.letters) + event.key, at: event.timeStamp }
    return placeOfTyped(
      typed.current.letters,
      lines.filter(isItem).map((line) => line.word),
      place,
    )
  }

  return (
    <div ref={list} role="menu" aria-label={label} className="st-menu-list st-scroll" onKeyDown={onKeyDown}>
      {lines.map((line) => {
        if (line.kind === 'rule') return <div key={line.id} role="separator" className="st-menu-rule" />
        if (line.kind === 'heading') return <MenuHeadingLine key={line.id} word={line.word} />
        return <MenuItemLine key={line.id} item={line} onDone={onDone} />
      })}
    </div>
  )
}

function isItem(line: MenuLine): line is MenuItem {
  return line.kind === undefined || line.kind === 'item'
}

function MenuHeadingLine({ word }: { readonly word: string }) {
  return (
    <div role="presentation" className="st-menu-heading">
      {word}
    </div>
  )
}

function MenuItemLine({ item, onDone }: { readonly item: MenuItem; readonly onDone: () => void }) {
  const { word, icon: Picture, hint, isChosen, disabledBecause, isDanger = false, onChoose } = item
  const isDisabled = disabledBecause !== undefined
  const choose = () => {
    if (isDisabled) return
    onDone()
    onChoose()
  }
  return (
    <button
      type="button"
      tabIndex={-1}
      role={isChosen === undefined ? 'menuitem' : 'menuitemradio'}
      aria-checked={isChosen}
      aria-disabled={isDisabled || undefined}
      className={isDanger ? 'st-menu-item st-menu-item--danger' : 'st-menu-item'}
      onClick={choose}
    >
      <span className="st-menu-picture">
        {isChosen === true ? <CheckIcon /> : Picture === undefined ? null : <Picture />}
      </span>
      <span className="st-menu-word">
        {word}
        {isDisabled ? <span className="st-menu-because">{disabledBecause}</span> : null}
      </span>
      {hint === undefined ? null : <span className="st-menu-hint">{hint}</span>}
    </button>
  )
}
