import { useRef, type KeyboardEvent } from 'react'
import { useStore } from 'zustand'
import { entryKinds } from '../../../shared/lab/model.ts'
import { Button, entryKindFaces, TextInput } from '../../ui/index.ts'
import { clearFilter, toggleKind, type JournalStore } from './journalState.ts'
import { isFiltering } from './rows.ts'

export interface FilterBarProps {
  readonly store: JournalStore
  readonly shown: number
  readonly all: number
}

/** Which entries are shown: by kind and by words. Escape shows all again. */
export function FilterBar({ store, shown, all }: FilterBarProps) {
  const filter = useStore(store, (state) => state.filter)
  const isShown = useStore(store, (state) => state.isFilterShown)
  const bar = useRef<HTMLDivElement>(null)
  if (!isShown) return null
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return
    event.preventDefault()
    clearFilter(store)
    document.querySelector<HTMLElement>('[data-journal-filter]')?.focus()
  }
  return (
    <div ref={bar} className="st-filter" role="search" aria-label="Filter the journal" onKeyDown={onKeyDown}>
      <TextInput
        label="Words in the entry"
        hidesLabel
        placeholder="Words in the entry"
        autoFocus
        value={filter.words}
        onChange={(event) => store.setState({ filter: { ...filter, words: event.target.value } })}
      />
      <div className="st-filter-kinds" role="group" aria-label="Kinds that are shown">
        {entryKinds.map((kind) => (
          <Button
            key={kind}
            look="quiet"
            icon={entryKindFaces[kind].icon}
            className={`st-kind--${kind} st-filter-kind`}
            pressed={filter.kinds.has(kind)}
            onClick={() => toggleKind(store, kind)}
          >
            {entryKindFaces[kind].word}
          </Button>
        ))}
      </div>
      <div className="st-filter-foot">
        <p role="status">{isFiltering(filter) ? `${shown} of ${all} entries` : 'All entries are shown.'}</p>
        <Button look="quiet" keys="Escape" onClick={() => clearFilter(store)}>
          Show all
        </Button>
      </div>
    </div>
  )
}
