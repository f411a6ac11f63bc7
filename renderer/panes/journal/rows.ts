/** What the journal shows, line by line: its entries in order, with a head wherever the day or the UTC offset changes. */
import type { EntryId } from '../../../shared/lab/ids.ts'
import { momentOf, placeOf, threadsOf } from '../../../shared/journal/entry-facts.ts'
import type {
  Entry,
  EntryKind,
  EntryTags,
  Machine,
  Mark,
  Outcome,
  Place,
  TextNodeId,
} from '../../../shared/lab/model.ts'
import { whereOf } from '../../../shared/journal/places.ts'
import { isSame } from '../../../shared/lab/fields.ts'
import { offsetOf, type Moment } from '../../../shared/lab/moment.ts'

export interface DayRow {
  readonly kind: 'day'
  readonly key: string
  /** 'Saturday, 14 November 2026' */
  readonly name: string
  /** 'UTC+01:00' where it differs from the entry before, else null. */
  readonly offset: string | null
}

export interface EntryRow {
  readonly kind: 'entry'
  readonly key: EntryId
  readonly entry: Entry
  /** 1 for the first that is shown. */
  readonly place: number
  /** When it happened, or was written. */
  readonly moment: Moment
  /** The entry above that it was added to later; null for one that stands for itself. */
  readonly parent: EntryRow | null
  /** Whether it happened elsewhere than what stands before it. */
  readonly isElsewhere: boolean
}

export type LogRow = DayRow | EntryRow

/** Which entries are shown. Nothing chosen and nothing typed shows all. */
export interface EntryFilter {
  readonly kinds: ReadonlySet<EntryKind>
  /** Each word must stand somewhere in the text, in any case. */
  readonly words: string
  /** An entry must have each of them. */
  readonly tags: ReadonlySet<string>
  /** Where it happened: a machine's id, or a host's name where no machine is known by it. Null for anywhere. */
  readonly place: string | null
  readonly outcome: Outcome | null
}

export const noFilter: EntryFilter = {
  kinds: new Set(),
  words: '',
  tags: new Set(),
  place: null,
  outcome: null,
}

export function isFiltering({ kinds, words, tags, place, outcome }: EntryFilter): boolean {
  return kinds.size > 0 || words.trim() !== '' || tags.size > 0 || place !== null || outcome !== null
}

/** What the filter asks of entries beside their words and tags. */
export interface FilterFacts {
  readonly marks: ReadonlyMap<string, readonly Mark[]>
  readonly machines: readonly Machine[]
  /** The outcome of an entry; null where it has none. */
  readonly outcomeOf: (entry: Entry) => Outcome | null
}

function fitsFacts(
  entry: Entry,
  { place, outcome }: EntryFilter,
  { marks, machines, outcomeOf }: FilterFacts,
): boolean {
  const own = marks.get(entry.id)
  if (place !== null && whereOf(placeOf(entry, own), machines) !== place) return false
  return outcome === null || outcomeOf(entry) === outcome
}

/** The entries that a filter lets through, in their order. */
export function filterEntries(
  entries: readonly Entry[],
  texts: ReadonlyMap<TextNodeId, string>,
  filter: EntryFilter,
  entryTags: ReadonlyMap<string, EntryTags>,
  about: FilterFacts = { marks: new Map(), machines: [], outcomeOf: () => null },
): readonly Entry[] {
  if (!isFiltering(filter)) return entries
  const words = filter.words.toLocaleLowerCase().split(/\s+/u).filter(Boolean)
  return entries.filter((entry) => {
    if (filter.kinds.size > 0 && !filter.kinds.has(entry.kind)) return false
    const has = filter.tags.size > 0 ? (entryTags.get(entry.id)?.tags ?? []) : []
    if (!fitsFacts(entry, filter, about)) return false
    if ([...filter.tags].some((tag) => !has.includes(tag))) return false
    if (words.length === 0) return true
    const text = (texts.get(entry.id) ?? '').toLocaleLowerCase()
    return words.every((word) => text.includes(word))
  })
}

/**
 * Entries with heads between them. Days are those of the place where an entry was written, not of the reader.
 * @param marks what was set on entries since: an entry stands at the moment at which it happened
 */
export function rowsOf(
  entries: readonly Entry[],
  marks: ReadonlyMap<string, readonly Mark[]> = new Map(),
): LogRow[] {
  const rows: LogRow[] = []
  const { heads, additions } = threadsOf(entries)
  let last: Moment | null = null
  let place = 0
  let where: Place | null = null
  /** A place that is not known says nothing of the next. */
  const isElsewhere = (entry: Entry): boolean => {
    const own = placeOf(entry, marks.get(entry.id))
    const before = where
    where = own ?? where
    return own !== null && !isSame(own, before)
  }
  for (const entry of heads) {
    const moment = momentOf(entry, marks.get(entry.id))
    const isNewOffset = last === null || offsetOf(last) !== offsetOf(moment)
    if (isNewOffset || dateOf(last!) !== dateOf(moment))
      rows.push({
        kind: 'day',
        key: `day before ${entry.id}`,
        name: dayNameOf(moment),
        offset: isNewOffset ? offsetNameOf(moment) : null,
      })
    const row: EntryRow = {
      ...({ kind: 'entry', key: entry.id, entry, place: ++place, moment, parent: null } as const),
      isElsewhere: isElsewhere(entry),
    }
    rows.push(row)
    for (const added of additions.get(entry.id) ?? []) {
      const own = momentOf(added, marks.get(added.id))
      rows.push({
        ...({ kind: 'entry', key: added.id, entry: added, place: ++place, moment: own } as const),
        ...{ parent: row, isElsewhere: isElsewhere(added) },
      })
    }
    last = moment
  }
  return rows
}

const dayParts = new Intl.DateTimeFormat('en-GB', {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
})

/** 'Saturday, 14 November 2026', by the calendar of where it was written. */
export function dayNameOf(moment: Moment): string {
  const parts = dayParts.formatToParts(Date.parse(`${dateOf(moment)}T00:00:00Z`))
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find((one) => one.type === type)?.value ?? ''
  return `${part('weekday')}, ${part('day')} ${part('month')} ${part('year')}`
}

/** 'UTC+01:00', with the offset as RFC 3339 writes it. */
export function offsetNameOf(moment: Moment): string {
  return `UTC${moment.slice(23)}`
}

/** '2026-11-14' */
export function dateOf(moment: Moment): string {
  return moment.slice(0, 10)
}

/** '21:14' */
export function timeOf(moment: Moment): string {
  return moment.slice(11, 16)
}

/** The time alone, or with its date where that is another day than `beside`. */
export function timeBeside(moment: Moment, beside: Moment): string {
  return dateOf(moment) === dateOf(beside) ? timeOf(moment) : `${dateOf(moment)} ${timeOf(moment)}`
}

/**
 * The entry that a key leads to from another: up, down, first, last. Not round the ends: a log has a first and a last.
 * @returns null where the key leads nowhere
 */
export function nextEntry(rows: readonly LogRow[], from: string, key: string): EntryId | null {
  const entries = rows.filter((row) => row.kind === 'entry')
  const at = entries.findIndex((row) => row.key === from)
  const to = { ArrowUp: at - 1, ArrowDown: at + 1, Home: 0, End: entries.length - 1 }[key]
  if (to === undefined || to === at) return null
  return entries[to]?.key ?? null
}
