/** What the journal's pane keeps of where a person was in a project: the filter, what is unfolded, and how far it is scrolled. */
import { isId, type EntryId } from '../../../shared/lab/ids.ts'
import { entryKinds, outcomes, type EntryKind, type Outcome } from '../../../shared/lab/model.ts'
import type { JournalState, JournalStore } from './journalState.ts'
import { isFiltering, noFilter, type EntryFilter } from './rows.ts'

/** The entry at the head of what is in view, and how far below the upper edge it begins, in CSS pixels. */
export interface TopEntry {
  readonly entry: EntryId
  readonly below: number
}

/** As it is stored: plain JSON. */
export interface StoredJournalPlace {
  readonly filter: {
    readonly kinds: readonly EntryKind[]
    readonly words: string
    readonly tags: readonly string[]
    readonly place: string | null
    readonly outcome: Outcome | null
  }
  readonly isFilterShown: boolean
  readonly unfolded: readonly EntryId[]
  /** Null while the newest entry is in view. */
  readonly top: TopEntry | null
}

export interface JournalPlace extends Pick<JournalState, 'filter' | 'isFilterShown' | 'unfolded'> {
  readonly top: TopEntry | null
}

export const newestPlace: JournalPlace = {
  filter: noFilter,
  isFilterShown: false,
  unfolded: new Set(),
  top: null,
}

export function toStoredPlace({ filter, isFilterShown, unfolded, top }: JournalPlace): StoredJournalPlace {
  return {
    filter: { ...filter, kinds: [...filter.kinds], tags: [...filter.tags] },
    isFilterShown,
    unfolded: [...unfolded],
    top,
  }
}

/** What may be written to the disk: words that are looked for can be a secret, and are in no record that is struck out. */
export function withoutWords(place: StoredJournalPlace): StoredJournalPlace {
  return { ...place, filter: { ...place.filter, words: '' } }
}

/** Reads what was stored, by whichever version of the program. What it cannot tell is as at the first time. */
export function toJournalPlace(stored: unknown): JournalPlace {
  const { filter, isFilterShown, unfolded, top } = partsOf(stored)
  const read = toFilter(filter)
  return {
    filter: read,
    // Entries must never be hidden without a sign of it.
    isFilterShown: isFilterShown === true || isFiltering(read),
    unfolded: new Set(listOf(unfolded).filter(isId<EntryId>)),
    top: maybeTop(top),
  }
}

function toFilter(stored: unknown): EntryFilter {
  const { kinds, words, tags, place, outcome } = partsOf(stored)
  const isText = (value: unknown): value is string => typeof value === 'string'
  return {
    kinds: new Set(entryKinds.filter((kind) => listOf(kinds).includes(kind))),
    words: isText(words) ? words : '',
    tags: new Set(listOf(tags).filter(isText)),
    place: isText(place) ? place : null,
    outcome: outcomes.find((one) => one === outcome) ?? null,
  }
}

function maybeTop(stored: unknown): TopEntry | null {
  const { entry, below } = partsOf(stored)
  return isId<EntryId>(entry) && typeof below === 'number' && Number.isFinite(below) ? { entry, below } : null
}

const partsOf = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null ? { ...value } : {}
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : [])

/** Notes where the person is in the log, and what the pane's state says beside that. */
export class PlaceKeeper {
  constructor(
    /** Where the log is to begin. */
    public top: TopEntry | null,
    private readonly onNote: (place: StoredJournalPlace) => void,
  ) {}

  /** @param top null while the newest entry is in view */
  noteTop(store: JournalStore, top: TopEntry | null): void {
    if (top?.entry === this.top?.entry && top?.below === this.top?.below) return
    this.top = top
    this.onNote(toStoredPlace({ ...store.getState(), top }))
  }

  /** Notes changes of the filter and of what is unfolded. @returns how to stop */
  watch(store: JournalStore): () => void {
    return store.subscribe((now, before) => {
      const isSame =
        now.filter === before.filter &&
        now.isFilterShown === before.isFilterShown &&
        now.unfolded === before.unfolded
      if (!isSame) this.onNote(toStoredPlace({ ...now, top: this.top }))
    })
  }
}
