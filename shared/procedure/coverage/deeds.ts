/** The journal as deeds: one for each unit of a command that was run and each state of a file, in the journal's order. */
import { contentOf } from '../../journal/files/content.ts'
import { statesOfPath } from '../../journal/files/states.ts'
import { fileOf, inJournalOrder, outcomeOf, outcomeSet, placeOf } from '../../journal/entry-facts.ts'
import { whereOf } from '../../journal/places.ts'
import { commandsOf, type MarkdownCommand } from '../../journal/scrollback/commands.ts'
import type { Entry, FileState, Outcome, Piece, Place, Range } from '../../lab/model.ts'
import { remembered } from '../../lab/remembered.ts'
import { slicePieces } from '../../provenance/pieces.ts'
import type { JournalRecords } from './records.ts'
import { fileKey, meaningOf, outcomesOfUnits, unitsOf, type Meaning } from './units.ts'

export interface Deed extends Meaning {
  readonly entry: Entry
  readonly kind: 'command' | 'file'
  /** Its place in the entry's text. */
  readonly range: Range
  /** The identities of its characters. */
  readonly pieces: readonly Piece[]
  /** The command as it was typed; the path of a file. */
  readonly text: string
  readonly outcome: Outcome
  readonly place: Place | null
  /** What places are told apart by; null where it is not known on which machine it was. */
  readonly where: string | null
}

/** Kinds of entries whose commands were run. */
const running: readonly Entry['kind'][] = ['action', 'fix']

/** All deeds of the entries that stand. */
export function deedsOf(journal: JournalRecords): Deed[] {
  const standing = [...journal.entries.values()].filter(({ id }) => !journal.withdrawn.has(id))
  const contents = contentsOf(standing, journal)
  // Where no place says the directory, it is the one that the last `cd` on that machine led to.
  const led = new Map<string | null, string | null>()
  return inJournalOrder(standing, journal.marks).flatMap((entry) => {
    if (running.includes(entry.kind)) return commandDeeds(entry, journal, led)
    return entry.kind === 'file' ? fileDeeds(entry, contents.get(entry.id) ?? null, journal) : []
  })
}

function commandDeeds(entry: Entry, journal: JournalRecords, led: Map<string | null, string | null>): Deed[] {
  const text = journal.texts.get(entry.id) ?? ''
  const marks = journal.marks.get(entry.id) ?? []
  const place = placeOf(entry, marks)
  return (entry.ran ? ranIn(text) : commandsIn(text)).flatMap(({ from, to, command }) => {
    const pieces = slicePieces(journal.pieces.get(entry.id) ?? [], { start: from, end: to })
    const units = unitsOf(command)
    const whole = outcomeOf(entry, marks, pieces)
    const isSaid = outcomeSet(marks, pieces) !== null || outcomeSet(marks, null) !== null
    const outcomes = isSaid ? units.map(() => whole) : outcomesOfUnits(units, whole)
    // Within a quotation the text has signs that the command has not; then the whole command stands for each unit.
    const isExact = text.slice(from, to) === command
    const typedAt = whereOf(place, journal.machines)
    let directory = place?.directory ?? led.get(typedAt) ?? null
    return units.map((unit, n): Deed => {
      const range = isExact ? { start: from + unit.from, end: from + unit.to } : { start: from, end: to }
      const meaning = meaningOf(unit.text, directory)
      if (outcomes[n] !== 'failed') directory = directoryAfter(unit.text, directory)
      led.set(typedAt, directory)
      return {
        ...meaning,
        entry,
        kind: 'command',
        range,
        pieces: slicePieces(journal.pieces.get(entry.id) ?? [], range),
        text: unit.text,
        outcome: outcomes[n]!,
        place,
        where: whereIs(meaning, place, journal),
      }
    })
  })
}

/** What a terminal's log says was run is one command, whatever in it looks like a prompt; unless the entry was amended. */
function ranIn(text: string): readonly MarkdownCommand[] {
  const [, fence, command] = /^(`{3,})sh\n([\s\S]*)\n\1$/u.exec(text.trimEnd()) ?? []
  if (fence === undefined || command === undefined) return commandsIn(text)
  const from = fence.length + 'sh\n'.length
  return [{ from, to: from + command.length, command, by: 'fence' }]
}

/** So many texts are kept, by what stands in them. */
const MOST_READ = 20_000

/** The commands of a Markdown text, as `commandsOf` gives them; read once as long as the text stays. */
export const commandsIn: (text: string) => readonly MarkdownCommand[] = remembered(
  MOST_READ,
  (text) => text,
  commandsOf,
)

/** What `cd` leads to, for what stands behind it in the same command. */
export function directoryAfter(text: string, directory: string | null): string | null {
  const target = /^\s*cd\s+([^\s;|&<>$`'"*?]+)\s*$/u.exec(text)?.[1]
  if (target === undefined) return /^\s*cd\b/u.test(text) ? null : directory
  return /^[/~]/u.test(target) ? target : directory === null ? null : `${directory}/${target}`
}

/** On which machine it ran: the one that `ssh` leads to, else that of the place. */
export function whereIs(
  { host }: Pick<Meaning, 'host'>,
  place: Place | null,
  { machines }: Pick<JournalRecords, 'machines'>,
): string | null {
  if (host === null) return whereOf(place, machines)
  return whereOf({ machine: null, host, user: null, directory: null }, machines)
}

/** The content after each file entry, by entry, where it is known. */
function contentsOf(entries: readonly Entry[], journal: JournalRecords): Map<string, string> {
  const byPath = new Map<
    string,
    { readonly id: string; readonly text: string; readonly state: FileState }[]
  >()
  for (const entry of inJournalOrder(entries, journal.marks)) {
    const marks = journal.marks.get(entry.id)
    const state = entry.kind === 'file' ? fileOf(entry, marks) : null
    if (!state) continue
    const key = JSON.stringify([whereOf(placeOf(entry, marks), journal.machines), state.path])
    const one = { id: entry.id, text: journal.texts.get(entry.id) ?? '', state }
    byPath.set(key, [...(byPath.get(key) ?? []), one])
  }
  const contents = new Map<string, string>()
  for (const states of byPath.values())
    statesOfPath(states).forEach((result, n) => {
      if (result.ok) contents.set(states[n]!.id, result.value)
    })
  return contents
}

function fileDeeds(entry: Entry, content: string | null, journal: JournalRecords): Deed[] {
  const marks = journal.marks.get(entry.id) ?? []
  const state = fileOf(entry, marks)
  const text = journal.texts.get(entry.id) ?? ''
  if (!state || state.path === '' || text.trim() === '') return []
  const place = placeOf(entry, marks)
  const said = outcomeSet(marks, null)
  return [
    {
      ...fileMeaning(state, text, content),
      entry,
      kind: 'file',
      range: { start: 0, end: text.length },
      pieces: journal.pieces.get(entry.id) ?? [],
      text: state.path,
      // A state that was noted is one that the file had.
      outcome: said ?? 'succeeded',
      place,
      where: whereOf(place, journal.machines),
    },
  ]
}

/** A state of a file as a command that sets it would be known. @param content null where it is not known as a whole */
export function fileMeaning(state: FileState, text: string, content: string | null): Meaning {
  const whole = content ?? contentOf(text, state) ?? null
  const isWhole = whole !== null && (content !== null || state.form === 'content')
  return {
    key: isWhole ? fileKey(state.path, whole) : `difference ${state.path}\n${state.blob ?? text.trim()}`,
    sets: isWhole ? { path: state.path, content: whole } : null,
    effect: { isKnown: true, effects: ['changes'], touches: [], sources: [] },
    changed: [{ name: `file ${state.path}`, isDestroyed: false }],
    program: null,
    host: null,
  }
}

export const isChanging = ({ effect }: Pick<Meaning, 'effect'>): boolean =>
  effect.effects.includes('changes') || effect.effects.includes('destroys')

/** Of two places whether they may be one: unknown may be any, two known ones must be equal. */
export const mayBeSamePlace = (a: string | null, b: string | null): boolean =>
  a === null || b === null || a === b
