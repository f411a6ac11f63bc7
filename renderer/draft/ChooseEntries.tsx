/** The project's entries to choose from: Space or a click for one, Shift for a range. Only those in view are in the page. */
import { useEffect, useId, useRef, type KeyboardEvent } from 'react'
import { useVirtualizer } from '@tanstack/react-virtual'
import { momentOf } from '../../shared/journal/entry-facts.ts'
import type { EntryId } from '../../shared/lab/ids.ts'
import type { Entry } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import type { ProjectView } from '../store/view.ts'
import { ChosenIcon, NotChosenIcon } from '../ui/icons.tsx'
import { entryKindFaces } from '../ui/index.ts'
import { choose, moveTo, type Choice } from './choice.ts'

interface ChooseEntriesProps {
  readonly view: ProjectView
  readonly entries: readonly Entry[]
  readonly order: readonly EntryId[]
  readonly choice: Choice
  readonly onChoice: (choice: Choice) => void
}

/** In root font sizes. */
const ROW = 2
const PAGE = 8

export function ChooseEntries({ view, entries, order, choice, onChoice }: ChooseEntriesProps) {
  const scroller = useRef<HTMLDivElement>(null)
  const id = useId()
  const rootFont = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 15
  const list = useVirtualizer({
    count: entries.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => ROW * rootFont,
    overscan: 8,
  })
  const { at } = choice
  useEffect(() => {
    if (entries.length > 0) list.scrollToIndex(Math.min(at, entries.length - 1), { align: 'auto' })
  }, [list, at, entries.length])
  const onKeyDown = (event: KeyboardEvent): void => {
    const next = placeOfKey(event.key, at, entries.length)
    if (next === null) return
    event.preventDefault()
    event.stopPropagation()
    if (event.key === ' ') onChoice(choose(choice, order, at, event.shiftKey))
    else onChoice(event.shiftKey ? choose(choice, order, next, true) : moveTo(choice, next))
  }
  return (
    <div
      ref={scroller}
      className="st-choose st-scroll"
      role="listbox"
      aria-label="Entries to draft from"
      aria-multiselectable
      aria-activedescendant={`${id}-${at}`}
      tabIndex={0}
      onKeyDown={onKeyDown}
    >
      <div role="presentation" style={{ height: list.getTotalSize(), position: 'relative' }}>
        {list.getVirtualItems().map(({ index, start, size }) => (
          <Option
            key={entries[index]!.id}
            id={`${id}-${index}`}
            view={view}
            entry={entries[index]!}
            at={index}
            count={entries.length}
            isHere={index === at}
            isChosen={choice.chosen.has(entries[index]!.id)}
            style={{ height: size, transform: `translateY(${start}px)` }}
            onPress={(isRange) => onChoice(choose(choice, order, index, isRange))}
          />
        ))}
      </div>
    </div>
  )
}

function placeOfKey(key: string, at: number, count: number): number | null {
  const last = count - 1
  const places: Readonly<Record<string, number>> = {
    ' ': at,
    ArrowDown: at + 1,
    ArrowUp: at - 1,
    PageDown: at + PAGE,
    PageUp: at - PAGE,
    Home: 0,
    End: last,
  }
  const place = places[key]
  return place === undefined ? null : Math.max(0, Math.min(last, place))
}

interface OptionProps {
  readonly id: string
  readonly view: ProjectView
  readonly entry: Entry
  readonly at: number
  readonly count: number
  readonly isHere: boolean
  readonly isChosen: boolean
  readonly style: { readonly height: number; readonly transform: string }
  readonly onPress: (isRange: boolean) => void
}

function Option({ id, view, entry, at, count, isHere, isChosen, style, onPress }: OptionProps) {
  const moment = momentOf(entry, view.marks.get(entry.id))
  const Tick = isChosen ? ChosenIcon : NotChosenIcon
  return (
    <div
      id={id}
      className={`st-choose-row${isHere ? ' st-choose-row--here' : ''}`}
      role="option"
      aria-selected={isChosen}
      aria-posinset={at + 1}
      aria-setsize={count}
      style={style}
      onMouseDown={(event) => {
        // With Shift a press would select words.
        if (event.shiftKey) event.preventDefault()
      }}
      onClick={(event) => onPress(event.shiftKey)}
    >
      <Tick />
      <span className="st-choose-when">
        {moment.slice(5, 10)} {moment.slice(11, 16)}
      </span>
      <span className="st-choose-kind">{entryKindFaces[entry.kind].word}</span>
      <span className="st-choose-words">{plainWords(view.texts.get(entry.id) ?? '', 120)}</span>
    </div>
  )
}
