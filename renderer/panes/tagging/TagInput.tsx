/** One line for tags, which offers the lab's own while one types (WAI-ARIA APG: editable combobox with list autocomplete). */
import { useId, useLayoutEffect, useRef, useState, type KeyboardEvent, type RefObject } from 'react'
import { placeNear } from '../../ui/place.ts'
import { offersFor, type OwnTag } from './offers.ts'

export interface TagInputProps {
  readonly input: RefObject<HTMLInputElement | null>
  readonly label: string
  /** Id of what says which keys there are. */
  readonly describedBy: string | undefined
  readonly words: string
  readonly onWords: (words: string) => void
  readonly own: readonly OwnTag[]
  readonly has: readonly string[]
  readonly onAdd: (words: string) => void
  /** Backspace in the empty line. */
  readonly onRemoveLast: () => void
  readonly onUndo: (isRedo: boolean) => void
  readonly autoFocus: boolean
}

export function TagInput(props: TagInputProps) {
  const { input, label, describedBy, words, onWords, own, has, onAdd, autoFocus } = props
  const id = useId()
  const [isAsked, setAsked] = useState(false)
  const [active, setActive] = useState(-1)
  const offers = isAsked ? offersFor(words, own, has) : []
  const isOpen = offers.length > 0
  const add = (tag: string): void => {
    onAdd(tag)
    onWords('')
    setAsked(false)
    setActive(-1)
  }
  const change = (next: string): void => {
    const comma = next.lastIndexOf(',')
    if (comma >= 0) onAdd(next.slice(0, comma))
    const rest = next.slice(comma + 1)
    onWords(comma >= 0 ? rest.trimStart() : rest)
    setAsked(rest.trim() !== '')
    setActive(-1)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.nativeEvent.isComposing) return
    if (!takeKey(event)) return
    event.preventDefault()
    event.stopPropagation()
  }
  /** @returns whether the key was meant for this line */
  const takeKey = (event: KeyboardEvent): boolean => {
    const { key } = event
    const isPlain = !event.altKey && !event.ctrlKey && !event.metaKey
    const step = isPlain ? { ArrowDown: 1, ArrowUp: -1 }[key] : undefined
    if (step !== undefined) return moveBy(step)
    if (key === 'Enter' && isPlain && (offers[active] || words.trim() !== '')) {
      add(offers[active]?.tag ?? words)
      return true
    }
    if (key === 'Escape') return escape()
    if (words !== '') return false
    const wants = undoWanted(event)
    if (wants) props.onUndo(wants === 'redo')
    else if (key === 'Backspace' && isPlain && has.length > 0) props.onRemoveLast()
    else return false
    return true
  }
  const moveBy = (step: number): boolean => {
    if (!isOpen) {
      setAsked(true)
      setActive(step > 0 ? 0 : offersFor(words, own, has).length - 1)
      return true
    }
    // One place more than there are offers: that one is the line itself.
    const places = offers.length + 1
    setActive(((active + 1 + step + places) % places) - 1)
    return true
  }
  const escape = (): boolean => {
    if (isOpen) setAsked(false)
    else if (words !== '') onWords('')
    else return false
    setActive(-1)
    return true
  }
  return (
    <>
      <input
        ref={input}
        type="text"
        role="combobox"
        className="st-tag-input"
        aria-label={label}
        aria-autocomplete="list"
        aria-expanded={isOpen}
        aria-controls={`${id}-offers`}
        aria-activedescendant={offers[active] ? `${id}-${active}` : undefined}
        aria-describedby={describedBy}
        autoComplete="off"
        spellCheck={false}
        placeholder="Add a tag"
        autoFocus={autoFocus}
        data-first={autoFocus || undefined}
        data-tag-input
        value={words}
        onChange={({ target }) => change(target.value)}
        onKeyDown={onKeyDown}
        onBlur={() => setAsked(false)}
      />
      <Offers id={id} input={input} offers={offers} active={active} onAdd={add} />
    </>
  )
}

function undoWanted({ key, ctrlKey, metaKey, shiftKey, altKey }: KeyboardEvent): 'undo' | 'redo' | null {
  if (!(ctrlKey || metaKey) || altKey) return null
  const letter = key.toLowerCase()
  if (letter === 'z') return shiftKey ? 'redo' : 'undo'
  return letter === 'y' ? 'redo' : null
}

interface OffersProps {
  readonly id: string
  readonly input: RefObject<HTMLInputElement | null>
  readonly offers: readonly OwnTag[]
  readonly active: number
  readonly onAdd: (tag: string) => void
}

/** The list lies over everything else, so that no pane cuts it off; the focus stays in the line. */
function Offers({ id, input, offers, active, onAdd }: OffersProps) {
  const popover = useRef<HTMLDivElement>(null)
  const isOpen = offers.length > 0
  useLayoutEffect(() => {
    const element = popover.current
    if (!element || !input.current) return
    if (isOpen !== element.matches(':popover-open'))
      if (isOpen) element.showPopover()
      else element.hidePopover()
    if (isOpen) placeNear(element, input.current.getBoundingClientRect(), 'start')
  })
  return (
    <div ref={popover} popover="manual" className="st-menu st-tag-offers">
      <ul id={`${id}-offers`} role="listbox" aria-label="Tags of this lab" className="st-menu-list st-scroll">
        {offers.map(({ tag, uses }, place) => (
          <li
            key={tag}
            id={`${id}-${place}`}
            role="option"
            aria-selected={place === active}
            className="st-tag-offer"
            onPointerDown={(event) => event.preventDefault()}
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => onAdd(tag)}
          >
            <span className="st-tag-offer-word">{tag}</span>
            <span className="st-menu-hint">
              {uses}
              <span className="st-unseen"> {uses === 1 ? 'thing has it' : 'things have it'}</span>
            </span>
          </li>
        ))}
      </ul>
    </div>
  )
}
