import { useMemo, useRef, type KeyboardEvent } from 'react'
import { useStore } from 'zustand'
import { entryKinds } from '../../../shared/lab/model.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, entryKindFaces, TextInput } from '../../ui/index.ts'
import { countTags } from '../tagging/index.ts'
import { clearFilter, toggleKind, toggleTag, type JournalStore } from './journalState.ts'
import { isFiltering } from './rows.ts'

export interface FilterBarProps {
  readonly store: JournalStore
  readonly shown: number
  readonly all: number
}

/** Which entries are shown: by kind, by words and by tags. Escape shows all again. */
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
      <TagChoice store={store} />
      <div className="st-filter-foot">
        <p role="status">{isFiltering(filter) ? `${shown} of ${all} entries` : 'All entries are shown.'}</p>
        <Button look="quiet" keys="Escape" onClick={() => clearFilter(store)}>
          Show all
        </Button>
      </div>
    </div>
  )
}

/** The tags of this project's entries, the most used first. */
function TagChoice({ store }: { readonly store: JournalStore }) {
  const chosen = useStore(store, (state) => state.filter.tags)
  const entryTags = useWorkspaceState((state) => state.view?.entryTags)
  const counted = useMemo(
    () => countTags([...(entryTags?.values() ?? [])].map(({ tags }) => tags)),
    [entryTags],
  )
  // One that no entry has any more can still be taken out of the filter.
  const gone = [...chosen].filter((tag) => !counted.some((one) => one.tag === tag))
  const all = [...counted, ...gone.map((tag) => ({ tag, uses: 0 }))]
  if (all.length === 0) return null
  return (
    <div className="st-filter-tags st-scroll" role="group" aria-label="Tags that entries must have">
      {all.map(({ tag, uses }) => (
        <Button
          key={tag}
          look="quiet"
          className="st-filter-tag"
          pressed={chosen.has(tag)}
          onClick={() => toggleTag(store, tag)}
        >
          {tag} <span className="st-filter-count">{uses}</span>
        </Button>
      ))}
    </div>
  )
}
