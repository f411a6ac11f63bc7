/**
 * What is true of an entry now: what it said of itself when it was written, and what was set on it since. The newest mark
 * for a thing counts.
 */
import { instantOf, type Moment } from '../lab/moment.ts'
import type { Entry, FileState, Mark, MarkSays, Outcome, Piece, Place } from '../lab/model.ts'
import { locatePieces } from '../provenance/pieces.ts'

const noMarks: readonly Mark[] = []

type SaysOf<K extends MarkSays['kind']> = Extract<MarkSays, { readonly kind: K }>

/** The newest of an entry's marks of a kind that fits; undefined where there is none. */
function findNewest<K extends MarkSays['kind']>(
  marks: readonly Mark[],
  kind: K,
  fits: (says: SaysOf<K>) => boolean = () => true,
): SaysOf<K> | undefined {
  for (let at = marks.length - 1; at >= 0; at--) {
    const { says } = marks[at]!
    if (says.kind === kind && fits(says as SaysOf<K>)) return says as SaysOf<K>
  }
  return undefined
}

/** When it happened, where that was said; null where it is when it was written. */
export function happenedOf(entry: Entry, marks: readonly Mark[] = noMarks): Moment | null {
  const newest = findNewest(marks, 'happened')
  return newest ? newest.set : entry.happened
}

/** The moment that an entry stands at in the journal: when it happened, else when it was written. */
export function momentOf(entry: Entry, marks: readonly Mark[] = noMarks): Moment {
  return happenedOf(entry, marks) ?? entry.moment
}

/** Where it happened; null where that is not known. */
export function placeOf(entry: Entry, marks: readonly Mark[] = noMarks): Place | null {
  const newest = findNewest(marks, 'place')
  return newest ? newest.set : entry.place
}

/** The file that a file entry speaks of; null for any other entry. */
export function fileOf(entry: Entry, marks: readonly Mark[] = noMarks): FileState | null {
  return findNewest(marks, 'file')?.set ?? entry.file
}

/** What an exit code says (POSIX.1-2017, XCU §2.8.2: zero is success). Unknown where there is none. */
export function outcomeOfExit(exitCode: number | null): Outcome {
  if (exitCode === null) return 'unknown'
  return exitCode === 0 ? 'succeeded' : 'failed'
}

/** Whether two runs of identities have a character in common. */
export function sharePieces(a: readonly Piece[], b: readonly Piece[]): boolean {
  return locatePieces(a, b).length > 0
}

/**
 * The outcome of one command of an entry: what was set for it, else what was set for the entry as a whole, else what the
 * exit code says.
 * @param command the identities of the command's characters; null asks for the entry as a whole
 */
export function outcomeOf(
  entry: Entry,
  marks: readonly Mark[] = noMarks,
  command: readonly Piece[] | null = null,
): Outcome {
  const own = command
    ? findNewest(marks, 'outcome', (says) => says.command !== null && sharePieces(says.command, command))
    : undefined
  const whole = findNewest(marks, 'outcome', (says) => says.command === null)
  return own?.set ?? whole?.set ?? outcomeOfExit(entry.ran?.exitCode ?? null)
}

/** What was set by hand for a command, or for the entry as a whole; null where nothing stands. */
export function outcomeSet(marks: readonly Mark[], command: readonly Piece[] | null): Outcome | null {
  return (
    findNewest(marks, 'outcome', (says) =>
      command === null || says.command === null
        ? says.command === command
        : sharePieces(says.command, command),
    )?.set ?? null
  )
}

/**
 * Entries in the order of the journal: by when they happened, and those of one instant in the order in which they were
 * written. Later additions come with the others; `threadsOf` puts them under what they were added to.
 */
export function inJournalOrder(
  entries: Iterable<Entry>,
  marks: ReadonlyMap<string, readonly Mark[]> = new Map(),
): Entry[] {
  const placed = Array.from(entries, (entry) => ({
    entry,
    at: instantOf(momentOf(entry, marks.get(entry.id))),
  }))
  placed.sort((a, b) => a.at - b.at || (a.entry.id < b.entry.id ? -1 : 1))
  return placed.map(({ entry }) => entry)
}

/**
 * Later additions by the entry that they stand under, in the order in which they were written. An addition to something
 * that is not here stands for itself.
 */
export function threadsOf(entries: readonly Entry[]): {
  readonly heads: Entry[]
  readonly additions: ReadonlyMap<string, readonly Entry[]>
} {
  const here = new Set<string>(entries.map(({ id }) => id))
  const isAddition = (entry: Entry): boolean => entry.under !== null && here.has(entry.under)
  const additions = new Map<string, Entry[]>()
  for (const entry of entries)
    if (isAddition(entry)) additions.set(entry.under!, [...(additions.get(entry.under!) ?? []), entry])
  for (const list of additions.values()) list.sort((a, b) => (a.id < b.id ? -1 : 1))
  return { heads: entries.filter((entry) => !isAddition(entry)), additions }
}
