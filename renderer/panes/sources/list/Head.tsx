/** What stands over the list: which sources, words to find, the filter, the order, and choosing several. */
import { useRef, type KeyboardEvent, type RefObject } from 'react'
import { useStore } from 'zustand'
import { isFiltering } from '../../../../shared/sources/filter.ts'
import { sourceSorts } from '../../../../shared/sources/sort.ts'
import { useWorkspaceState } from '../../../store/useWorkspace.ts'
import { Button, Menu, TextInput } from '../../../ui/index.ts'
import { CloseIcon, FilterIcon, SelectManyIcon, SortIcon } from '../../../ui/icons.tsx'
import { useRoving } from '../../tagging/useRoving.ts'
import { FilterPanel } from './FilterPanel.tsx'
import { changeFilter, changeSort, clearFilter, endChoosing, goToRow, type ListStore } from './listState.ts'
import { chipsOf, sortWords } from './words.ts'
import type { Listed } from './useListed.ts'

export interface HeadProps {
  readonly store: ListStore
  readonly listed: Listed
}

export function Head({ store, listed }: HeadProps) {
  const isShown = useStore(store, (state) => state.isFilterShown)
  const field = useRef<HTMLInputElement>(null)
  const opener = useRef<HTMLButtonElement>(null)
  const close = (): void => {
    store.setState({ isFilterShown: false })
    opener.current?.focus()
  }
  return (
    <div className="st-list-head">
      <Scope store={store} listed={listed} />
      <div className="st-list-tools">
        <Words store={store} listed={listed} field={field} />
        <Button
          ref={opener}
          icon={FilterIcon}
          aria-expanded={isShown}
          onClick={() => store.setState({ isFilterShown: !isShown })}
        >
          Filter
        </Button>
        <Sort store={store} />
        <SelectMany store={store} />
      </div>
      <Chips store={store} listed={listed} field={field} />
      {isShown ? <FilterPanel store={store} listed={listed} onClose={close} /> : null}
    </div>
  )
}

function Scope({ store, listed: { counts, filter } }: HeadProps) {
  const scopes = [
    ['project', 'This project', counts.inProject],
    ['lab', 'All of the lab', counts.inLab],
  ] as const
  return (
    <div role="group" aria-label="Which sources are shown" className="st-scope">
      {scopes.map(([scope, word, count]) => (
        <button
          key={scope}
          type="button"
          className="st-scope-choice"
          aria-pressed={filter.scope === scope}
          onClick={() => changeFilter(store, { scope })}
        >
          {word} <span className="st-chip-count">{count}</span>
        </button>
      ))}
    </div>
  )
}

function Words({ store, listed, field }: HeadProps & { readonly field: RefObject<HTMLInputElement | null> }) {
  const { filter, shown } = listed
  const onKeyDown = (event: KeyboardEvent): void => {
    const [first] = shown
    if (event.key === 'ArrowDown' && first) goToRow(store, first.source.id)
    else if (event.key === 'Escape' && filter.words !== '') changeFilter(store, { words: '' })
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <TextInput
      ref={field}
      label="Filter sources by words"
      hidesLabel
      placeholder="Words to find"
      value={filter.words}
      onChange={({ target }) => changeFilter(store, { words: target.value })}
      onKeyDown={onKeyDown}
    />
  )
}

function Sort({ store }: { readonly store: ListStore }) {
  const sort = useStore(store, (state) => state.order.sort)
  return (
    <Menu
      label="Order of the sources"
      lines={sourceSorts.map((one) => ({
        id: one,
        word: sortWords[one],
        isChosen: one === sort,
        onChoose: () => changeSort(store, one),
      }))}
      trigger={(attributes) => (
        <Button
          {...attributes}
          look="quiet"
          icon={SortIcon}
          label={`Sort: ${sortWords[sort].toLowerCase()}`}
        />
      )}
    />
  )
}

function SelectMany({ store }: { readonly store: ListStore }) {
  const isChoosing = useStore(store, (state) => state.isChoosing)
  return (
    <Button
      look="quiet"
      icon={SelectManyIcon}
      label="Select several"
      pressed={isChoosing}
      onClick={() => (isChoosing ? endChoosing(store) : store.setState({ isChoosing: true }))}
    />
  )
}

/** The conditions that are set, each to be taken off, and how many sources are left. */
function Chips({ store, listed, field }: HeadProps & { readonly field: RefObject<HTMLInputElement | null> }) {
  const projects = useWorkspaceState((state) => state.projects)
  const { filter, tree, counts, whole } = listed
  const chips = chipsOf(filter, tree.pathOf, projects)
  const roving = useRoving('.st-chip', chips.length, () => field.current?.focus())
  const isSet = isFiltering(filter)
  return (
    <div className={isSet ? 'st-set-chips' : 'st-unseen'}>
      {chips.length > 0 ? (
        <ul
          ref={roving.ref}
          className="st-chips"
          aria-label="Filters that are set"
          onFocus={roving.onFocus}
          onBlur={roving.onBlur}
          onKeyDown={roving.onKeyDown}
        >
          {chips.map(({ key, sort, word, without }, place) => (
            <li key={key}>
              <button
                type="button"
                className="st-chip st-chip--set"
                aria-pressed
                aria-label={`${sort}: ${word}`}
                aria-keyshortcuts="Delete"
                tabIndex={place === roving.place ? 0 : -1}
                onClick={() => changeFilter(store, without)}
                onKeyDown={(event) => {
                  if (event.key !== 'Delete' && event.key !== 'Backspace') return
                  event.preventDefault()
                  changeFilter(store, without)
                }}
              >
                <span className="st-chip-word">{word}</span>
                <CloseIcon size="0.8em" />
              </button>
            </li>
          ))}
        </ul>
      ) : null}
      <p className="st-source-found" role="status">
        {isSet ? `${counts.shown.toLocaleString('en')} of ${whole.toLocaleString('en')}` : ''}
      </p>
      {isSet ? (
        <Button
          look="quiet"
          onClick={() => {
            clearFilter(store)
            field.current?.focus()
          }}
        >
          Show all
        </Button>
      ) : null}
    </div>
  )
}
