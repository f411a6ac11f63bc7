import { useEffect, useRef, useState, type KeyboardEvent } from 'react'
import type { Source } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, Menu, sourceKindFaces, TextInput, type MenuLine } from '../../ui/index.ts'
import { AmendIcon, CarryIcon, DragHandleIcon, RemoveIcon } from '../../ui/icons.tsx'
import { nextPlace } from '../../ui/roving.ts'
import { carrySource, draggingOf, isCarryKey } from './carryingSource.ts'
import { factsOf, filterRows, shortAddress, titleOf, type SourceRow } from './rows.ts'
import { SourceFields } from './SourceFields.tsx'
import { leaveSource } from './useOfSource.ts'

export interface SourceListProps {
  readonly rows: readonly SourceRow[]
  readonly filter: string
  readonly onFilter: (words: string) => void
  /** The source that was read last; the keyboard goes on there. */
  readonly last: Source['id'] | null
  readonly onOpen: (source: Source) => void
}

/** The project's sources, with a field that leaves those of certain words. One stop for Tab, arrows move. */
export function SourceList({ rows, filter, onFilter, last, onOpen }: SourceListProps) {
  const list = useRef<HTMLUListElement>(null)
  const [active, setActive] = useState<string | null>(last)
  const start = useRef(last)
  useEffect(() => {
    // Coming back from reading, the keyboard would be nowhere; who is elsewhere is left there.
    if (start.current !== null && document.activeElement === document.body)
      list.current?.querySelector<HTMLElement>(`[data-node="${start.current}"] > .st-source-open`)?.focus()
  }, [])
  const shown = filterRows(rows, filter)
  const current = shown.some(({ source }) => source.id === active) ? active : (shown[0]?.source.id ?? null)
  const focusRow = (place: number) => {
    list.current?.querySelectorAll<HTMLElement>('.st-source-open')[place]?.focus()
  }
  const onRowKey = (event: KeyboardEvent, place: number) => {
    if (!(event.target instanceof HTMLElement) || !event.target.matches('.st-source-open')) return
    const next = nextPlace(event.key, place, shown.length, 'vertical')
    if (next === null) return
    event.preventDefault()
    focusRow(next)
  }
  return (
    <>
      <Filter
        words={filter}
        onWords={onFilter}
        shown={shown.length}
        all={rows.length}
        onDown={() => focusRow(0)}
      />
      <ul ref={list} className="st-source-list st-scroll" aria-label="Sources of this project">
        {shown.map((row, place) => (
          <Row
            key={row.source.id}
            row={row}
            isCurrent={row.source.id === current}
            isLast={row.source.id === last}
            onFocus={() => setActive(row.source.id)}
            onKeyDown={(event) => onRowKey(event, place)}
            onOpen={() => onOpen(row.source)}
          />
        ))}
      </ul>
    </>
  )
}

interface FilterProps {
  readonly words: string
  readonly onWords: (words: string) => void
  readonly shown: number
  readonly all: number
  readonly onDown: () => void
}

function Filter({ words, onWords, shown, all, onDown }: FilterProps) {
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowDown') onDown()
    else if (event.key === 'Escape' && words !== '') onWords('')
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  const isFiltering = words.trim() !== ''
  return (
    <div className="st-source-filter">
      <TextInput
        label="Filter sources by words"
        hidesLabel
        placeholder="Filter by words"
        value={words}
        onChange={({ target }) => onWords(target.value)}
        onKeyDown={onKeyDown}
      />
      <p className={isFiltering ? 'st-source-found' : 'st-unseen'} role="status">
        {isFiltering ? `${shown} of ${all}` : ''}
      </p>
      {isFiltering ? (
        <Button look="quiet" onClick={() => onWords('')}>
          Show all
        </Button>
      ) : null}
    </div>
  )
}

interface RowProps {
  readonly row: SourceRow
  /** Its controls are in reach of Tab. */
  readonly isCurrent: boolean
  readonly isLast: boolean
  readonly onFocus: () => void
  readonly onKeyDown: (event: KeyboardEvent) => void
  readonly onOpen: () => void
}

function Row({ row, isCurrent, isLast, onFocus, onKeyDown, onOpen }: RowProps) {
  const workspace = useWorkspace()
  const { source } = row
  const [isEditing, setEditing] = useState(false)
  if (isEditing)
    return (
      <li className="st-source">
        <SourceFields source={source} onClose={() => setEditing(false)} />
      </li>
    )
  const title = titleOf(source)
  const { icon: Picture } = sourceKindFaces[source.kind]
  const tabIndex = isCurrent ? 0 : -1
  return (
    <li
      className={isLast ? 'st-source st-source--chosen' : 'st-source'}
      data-node={source.id}
      onFocus={onFocus}
      onKeyDown={(event) => {
        if (!isCarryKey(event)) return onKeyDown(event)
        event.preventDefault()
        event.stopPropagation()
        carrySource(workspace, source)
      }}
      {...draggingOf(workspace, source)}
    >
      <button
        type="button"
        className="st-source-open"
        tabIndex={tabIndex}
        aria-current={isLast || undefined}
        aria-keyshortcuts="Alt+C"
        onClick={onOpen}
      >
        <Picture />
        <span className="st-source-title">{title}</span>
        {source.address === null ? null : (
          <span className="st-source-address">{shortAddress(source.address)}</span>
        )}
        <span className="st-source-facts">{factsOf(row)}</span>
      </button>
      <Menu
        label={`“${title}”`}
        lines={rowLines(title, {
          carry: () => carrySource(workspace, source),
          edit: () => setEditing(true),
          leave: () => void leaveSource(workspace, source),
        })}
        trigger={(attributes) => (
          <button
            {...attributes}
            type="button"
            className="st-handle"
            tabIndex={tabIndex}
            aria-label={`Carry or change “${title}”`}
          >
            <DragHandleIcon />
          </button>
        )}
      />
    </li>
  )
}

interface RowActs {
  readonly carry: () => void
  readonly edit: () => void
  readonly leave: () => void
}

function rowLines(title: string, { carry, edit, leave }: RowActs): MenuLine[] {
  return [
    { kind: 'heading', id: 'title', word: title },
    { id: 'carry', word: 'Carry…', icon: CarryIcon, hint: 'Alt+C', onChoose: carry },
    { id: 'edit', word: 'Rename or change its address', icon: AmendIcon, onChoose: edit },
    { id: 'leave', word: 'Take out of this project', icon: RemoveIcon, onChoose: leave },
  ]
}
