import { useMemo, useRef, type KeyboardEvent } from 'react'
import { useStore } from 'zustand'
import { placeOf } from '../../../shared/journal/entry-facts.ts'
import { nameOfWhere, whereOf } from '../../../shared/journal/places.ts'
import { entryKinds, outcomes, type Outcome } from '../../../shared/lab/model.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, entryKindFaces, Field, TextInput } from '../../ui/index.ts'
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
  const isFromBefore = useStore(store, (state) => state.isFilterFromBefore)
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
        autoFocus={!isFromBefore}
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
      <PlaceAndOutcome store={store} />
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

/** Where entries happened, and with what outcome. */
function PlaceAndOutcome({ store }: { readonly store: JournalStore }) {
  const filter = useStore(store, (state) => state.filter)
  const machines = useWorkspaceState((state) => state.machines)
  const entries = useWorkspaceState((state) => state.view?.entries)
  const marks = useWorkspaceState((state) => state.view?.marks)
  const places = useMemo(() => {
    const names = new Map<string, string>()
    for (const entry of entries?.values() ?? []) {
      const place = placeOf(entry, marks?.get(entry.id))
      const where = whereOf(place, machines)
      if (where !== null) names.set(where, nameOfWhere(place, machines) ?? where)
    }
    return [...names].sort(([, a], [, b]) => a.localeCompare(b))
  }, [entries, marks, machines])
  const set = (more: Partial<typeof filter>): void => store.setState({ filter: { ...filter, ...more } })
  return (
    <div className="st-filter-facts">
      {places.length === 0 ? null : (
        <Field label="Where">
          {(attributes) => (
            <select
              {...attributes}
              className="st-input"
              value={filter.place ?? ''}
              onChange={(event) => set({ place: event.target.value || null })}
            >
              <option value="">anywhere</option>
              {places.map(([where, name]) => (
                <option key={where} value={where}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
      <Field label="Outcome of actions">
        {(attributes) => (
          <select
            {...attributes}
            className="st-input"
            value={filter.outcome ?? ''}
            onChange={(event) => set({ outcome: (event.target.value || null) as Outcome | null })}
          >
            <option value="">any entry</option>
            {outcomes.map((outcome) => (
              <option key={outcome}>{outcome}</option>
            ))}
          </select>
        )}
      </Field>
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
