/**
 * Which strings of a sealed record are a person's words. All are, but for those named here: ids, moments, kinds and
 * digests. So a field that comes later is never laid open by mistake.
 */
import type { ChangeSetJson, Revision } from '../../lab/model.ts'
import type { Json } from './canonical.ts'
import type { SealedTable, SealedText, SealedThing } from './model.ts'

const revisionFields = ['id', 'node', 'from', 'moment', 'change', 'restores.*.revision', 'blobs.*']
const placeFields = ['machine']
const fileFields = ['form', 'lineEnds', 'blob']
const under = (path: string, fields: readonly string[]): string[] => fields.map((field) => `${path}.${field}`)

/** Places that hold none of a person's words. `*` stands for a number. */
const openPlaces: Readonly<Record<SealedTable, ReadonlySet<string>>> = {
  entries: new Set([
    ...['id', 'project', 'kind', 'moment', 'happened', 'under', 'ran.started', 'ran.ended'],
    ...under('place', placeFields),
    ...under('file', fileFields),
    ...under('revision', revisionFields),
  ]),
  revisions: new Set(revisionFields),
  withdrawals: new Set(['id', 'entry', 'moment']),
  marks: new Set([
    ...['id', 'entry', 'moment', 'says.kind', 'says.item.*.revision', 'says.command.*.revision'],
    ...['says.set', 'says.was'].flatMap((path) => under(path, [...placeFields, ...fileFields])),
  ]),
  strikes: new Set(['id', 'moment', 'node.kind', 'node.id', 'taken.*.field', 'taken.*.gone', 'emptied.*']),
}

/** Marks that set one of our own words or a moment. */
const openMarks: readonly unknown[] = ['tick', 'outcome', 'happened']

/** A record as it is sealed, before its words are replaced. */
export function toSealedRecord(thing: SealedThing): Json {
  switch (thing.table) {
    case 'entries':
      return asJson({
        ...thing.record,
        revision: thing.first ? openRevision(thing.first) : null,
        text: thing.first?.text ?? null,
      })
    case 'revisions':
      return asJson({ ...openRevision(thing), text: thing.text })
    case 'withdrawals':
    case 'marks':
      return asJson(thing.record)
    case 'strikes':
      return asJson({ ...thing.record, taken: thing.taken, emptied: thing.emptied })
  }
}

const asJson = (value: unknown): Json => value as Json

/** A revision with the lengths of its change set: what was typed follows from them and the text. */
function openRevision({ record }: SealedText): object {
  const { changeSet, ...rest } = record satisfies Revision
  return { ...rest, lengths: lengthsOf(changeSet) }
}

/** A change set without what it inserts: kept lengths, and pairs of deleted and inserted lengths. Code units. */
function lengthsOf(changeSet: ChangeSetJson): (number | [number, number])[] {
  return changeSet.map((part) =>
    typeof part === 'number' ? part : [part[0], part.slice(1).join('\n').length],
  )
}

/** What stands at a place, such as `place.host` or `taken.0.now`; undefined where nothing does. */
export function findAt(value: unknown, place: string): unknown {
  return place.split('.').reduce<unknown>((inner, name) => fieldOf(inner, name), value)
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, name)
    ? (value as Readonly<Record<string, unknown>>)[name]
    : undefined
}

/** The same record with every text of a person's words replaced. @param replace gets the words and their place */
export function replaceWords(
  table: SealedTable,
  record: Json,
  replace: (words: string, place: string) => Json,
): Json {
  const open = openPlaces[table]
  const opensMarks = table === 'marks' && openMarks.includes(findAt(record, 'says.kind'))
  const walk = (value: Json, place: string, pattern: string): Json => {
    if (typeof value === 'string') {
      const isOpen = open.has(pattern) || (opensMarks && (place === 'says.set' || place === 'says.was'))
      return isOpen ? value : replace(value, place)
    }
    if (typeof value !== 'object' || value === null) return value
    if (Array.isArray(value))
      return value.map((item: Json, i) => walk(item, joined(place, String(i)), joined(pattern, '*')))
    return Object.fromEntries(
      Object.entries(value as Readonly<Record<string, Json | undefined>>).flatMap(([name, item]) =>
        // A field that is there without a value is to JSON as if it were not.
        item === undefined ? [] : [[name, walk(item, joined(place, name), joined(pattern, name))] as const],
      ),
    )
  }
  return walk(record, '', '')
}

const joined = (path: string, name: string): string => (path === '' ? name : `${path}.${name}`)

/**
 * A stored record with its words changed and all else left alone, so that striking out never touches an id, a moment or
 * a kind in which the secret stands by chance. The record itself where nothing changed.
 */
export function mapWords<T extends object>(
  table: 'entries' | 'marks' | 'strikes' | 'withdrawals',
  record: T,
  change: (words: string) => string,
): T {
  let isChanged = false
  const next = replaceWords(table, asJson(record), (words) => {
    const changed = change(words)
    isChanged ||= changed !== words
    return changed
  })
  return isChanged ? (next as unknown as T) : record
}
