/** What the journal's pane itself remembers while a project is shown: filter, place of the keyboard, what is unfolded. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { EntryId } from '../../../shared/lab/ids.ts'
import type { EntryKind, Range } from '../../../shared/lab/model.ts'
import type { ComposerModel } from './composerModel.ts'
import { newestPlace, type JournalPlace, type PlaceKeeper } from './keptPlace.ts'
import { noFilter, type EntryFilter } from './rows.ts'

export interface JournalState {
  readonly filter: EntryFilter
  readonly isFilterShown: boolean
  /** The entry that Tab leads to; null for the newest. */
  readonly current: EntryId | null
  /** Counts up whenever `current` is to take the keyboard's focus. */
  readonly focusCalls: number
  readonly amending: ReadonlySet<EntryId>
  /** The entry that the person just asked to amend. */
  readonly asked: EntryId | null
  /** Entries whose tags are being changed. */
  readonly tagging: ReadonlySet<EntryId>
  /** Entries of which it is being said where or when they happened. */
  readonly placing: ReadonlySet<EntryId>
  readonly timing: ReadonlySet<EntryId>
  /** File entries of which it is being said which file they speak of. */
  readonly naming: ReadonlySet<EntryId>
  /** Entries of which it is shown what tidying would do. */
  readonly tidying: ReadonlySet<EntryId>
  /** Entries whose words are picked by keyboard. */
  readonly picking: ReadonlySet<EntryId>
  /** Entries whose commands are listed one by one. */
  readonly listing: ReadonlySet<EntryId>
  /** Withdrawn entries whose text is shown, and amended ones whose earlier texts are. */
  readonly unfolded: ReadonlySet<EntryId>
  /** The entry that something is being dragged from; it stays in the page until the drag ends. */
  readonly dragged: EntryId | null
  /** An entry and the words that are to be struck out. */
  readonly striking: { readonly id: EntryId; readonly text: string } | null
  /** The last call to go somewhere that was followed. */
  readonly followed: number
  /** Words that were selected when a menu was opened, since a press elsewhere can end a selection. */
  readonly selected: { readonly id: EntryId; readonly range: Range } | null
  /** The composer at the foot of this journal. */
  readonly composer: ComposerModel
  /** What the pane keeps for the next time. */
  readonly keeper: PlaceKeeper
  /** Whether the filter was shown when the person came back here, rather than asked for. */
  readonly isFilterFromBefore: boolean
}

export type JournalStore = StoreApi<JournalState>

/** @param place where the person was last */
export function createJournalStore(
  composer: ComposerModel,
  keeper: PlaceKeeper,
  { filter, isFilterShown, unfolded }: JournalPlace = newestPlace,
): JournalStore {
  return createStore<JournalState>(() => ({
    filter,
    isFilterShown,
    current: null,
    focusCalls: 0,
    amending: new Set(),
    asked: null,
    tagging: new Set(),
    placing: new Set(),
    timing: new Set(),
    naming: new Set(),
    tidying: new Set(),
    picking: new Set(),
    listing: new Set(),
    unfolded,
    dragged: null,
    striking: null,
    followed: 0,
    selected: null,
    composer,
    keeper,
    isFilterFromBefore: isFilterShown,
  }))
}

type SetName =
  'amending' | 'tagging' | 'placing' | 'timing' | 'naming' | 'tidying' | 'picking' | 'listing' | 'unfolded'

/** Puts an entry into one of the sets, or takes it out. */
export function setIn(store: JournalStore, name: SetName, id: EntryId, isIn: boolean): void {
  const before = store.getState()[name]
  if (before.has(id) === isIn) return
  const next = new Set(before)
  if (isIn) next.add(id)
  else next.delete(id)
  store.setState({ [name]: next })
}

/** Opens an entry to be amended, with the keyboard in it. */
export function beginAmending(store: JournalStore, id: EntryId): void {
  store.setState({ asked: id, current: id })
  setIn(store, 'amending', id, true)
}

/** Brings the keyboard to an entry. */
export function focusEntry(store: JournalStore, id: EntryId): void {
  store.setState(({ focusCalls }) => ({ current: id, focusCalls: focusCalls + 1 }))
}

export function toggleKind(store: JournalStore, kind: EntryKind): void {
  store.setState(({ filter }) => {
    const kinds = new Set(filter.kinds)
    if (!kinds.delete(kind)) kinds.add(kind)
    return { filter: { ...filter, kinds } }
  })
}

/** Shows only entries with a tag, or no longer. */
export function toggleTag(store: JournalStore, tag: string): void {
  store.setState(({ filter }) => {
    const tags = new Set(filter.tags)
    if (!tags.delete(tag)) tags.add(tag)
    return { filter: { ...filter, tags }, isFilterShown: true }
  })
}

/** Shows all entries again. */
export function clearFilter(store: JournalStore): void {
  store.setState({ filter: noFilter, isFilterShown: false, isFilterFromBefore: false })
}
