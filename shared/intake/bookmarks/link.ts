/** Links that come out of a browser's bookmarks, whichever file they stood in. */
import { toMoment, type Moment } from '../../lab/moment.ts'
import { maybeWebAddress } from '../../markdown/addresses.ts'
import type { Refused } from '../taken.ts'
import { toTitle } from '../text.ts'

export interface BookmarkedLink {
  /** One line, never empty. */
  readonly title: string
  /** Absolute http or https URL, as the WHATWG URL standard writes it. */
  readonly address: string
  /** Names of the folders that it stood in, the outermost first. */
  readonly folders: readonly string[]
  readonly tags: readonly string[]
  /** When it was kept, in UTC; null where the file does not say. */
  readonly added: Moment | null
  /** What was written beside it; empty where nothing was. */
  readonly note: string
  /** The word that opened it from the browser's address line; empty where there was none. */
  readonly shortcut: string
}

export interface Bookmarks {
  readonly ok: true
  /** Tells it from a document. */
  readonly kind: 'bookmarks'
  /** In the order of the file. */
  readonly links: readonly BookmarkedLink[]
  /** Sentences about what was left out. */
  readonly notes: readonly string[]
}

export type BookmarksIntake = Bookmarks | Refused

/** A link as a file says it, nothing checked. */
export interface RawLink {
  readonly title: string
  readonly address: string
  readonly folders: readonly string[]
  readonly tags: readonly string[]
  readonly added: Moment | null
  note: string
  readonly shortcut: string
}

/** Folders within each other that are read. */
export const maxFolders = 200

/** Keeps the links to pages on the web and says what was left out: programs, pages within an address, the browser's own. */
export function toBookmarks(raw: readonly RawLink[]): Bookmarks {
  const leftOut = new Map<string, number>()
  const links = raw.flatMap((one): BookmarkedLink[] => {
    const address = maybeWebAddress(one.address)
    if (address !== undefined)
      return [{ ...one, address, title: toTitle(one.title) || toTitle(address), note: one.note.trim() }]
    const scheme = /^\s*([A-Za-z][A-Za-z0-9+.-]{0,30}):/u.exec(one.address)?.[1]?.toLowerCase()
    const kind = scheme === undefined ? 'without an address' : `${scheme}:`
    leftOut.set(kind, (leftOut.get(kind) ?? 0) + 1)
    return []
  })
  return { ok: true, kind: 'bookmarks', links, notes: leftOutNotes(leftOut) }
}

function leftOutNotes(leftOut: ReadonlyMap<string, number>): readonly string[] {
  const all = [...leftOut.values()].reduce((sum, count) => sum + count, 0)
  if (all === 0) return []
  const kinds = [...leftOut].sort(([, one], [, other]) => other - one)
  const named = kinds.slice(0, 5).map(([kind, count]) => `${count} ${kind}`)
  const more = kinds.length > 5 ? ', and others' : ''
  const start =
    all === 1 ? 'One link was left out, because it leads' : `${all} links were left out, because they lead`
  return [`${start} to no page on the web (${named.join(', ')}${more}).`]
}

/** A folder's name: one line, never empty. */
export function toFolderName(name: string): string {
  return toTitle(name) || 'Untitled folder'
}

/** Microseconds from 1601-01-01 to 1970-01-01, both at 00:00 UTC. */
const microsecondsTo1970 = 11_644_473_600_000_000

/**
 * The moment of a count of time whose unit is told by its size alone: seconds, milliseconds or microseconds since 1970, or
 * microseconds since 1601. Today these are 10, 13, 16 and 17 digits; the lines between them lie centuries away from it.
 * @returns null for zero, for what is no count and for a year beyond 9999
 */
export function toAdded(count: string | number | undefined): Moment | null {
  const value =
    typeof count === 'string' ? (/^\s*\d{1,17}\s*$/u.test(count) ? Number(count) : 0) : (count ?? 0)
  if (!Number.isFinite(value) || value <= 0) return null
  try {
    return toMoment(Math.floor(toMilliseconds(value)), 0)
  } catch {
    return null
  }
}

function toMilliseconds(value: number): number {
  if (value < 1e11) return value * 1000
  if (value < 1e14) return value
  return (value < 1.1e16 ? value : value - microsecondsTo1970) / 1000
}
