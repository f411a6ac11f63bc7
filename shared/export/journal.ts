/** The appendix with the journal entries that the steps of a procedure rest on. */
import type { Paragraph, PhrasingContent, RootContent } from 'mdast'
import type { EntryId } from '../lab/ids.ts'
import { compareMoments } from '../lab/moment.ts'
import { embedMarkdown } from './embed.ts'
import type { Footnotes } from './footnotes.ts'
import type { EntryOrigin, ExportedEntry, ExportedProcedure, ExportedStep, Origin } from './input.ts'
import { entryLabel } from './labels.ts'
import { heading, paragraph } from './layout.ts'
import { text } from './nodes.ts'

/** Entries in time order, numbered from 1. */
export type NumberedEntries = ReadonlyMap<EntryId, { readonly number: number; readonly entry: ExportedEntry }>

const isEntryOrigin = (origin: Origin): origin is EntryOrigin => origin.kind === 'entry'

/** Each entry that a part of the procedure rests on, once. Entries of the same instant are ordered by id. */
export function entriesOf(procedure: ExportedProcedure): NumberedEntries {
  const origins = [...ownOrigins(procedure).filter(isEntryOrigin), ...procedure.steps.flatMap(originsOf)]
  const byId = new Map(origins.map((origin) => [origin.id, origin.entry]))
  const inOrder = [...byId].sort(([a, x], [b, y]) => compareMoments(x.moment, y.moment) || (a < b ? -1 : 1))
  return new Map(inOrder.map(([id, entry], i) => [id, { number: i + 1, entry }]))
}

const ownOrigins = ({ purposeOrigins = [], own = [] }: ExportedProcedure): readonly Origin[] => [
  ...purposeOrigins,
  ...own.flatMap(({ origins = [] }) => origins),
]

function originsOf(step: ExportedStep): EntryOrigin[] {
  return step.parts.flatMap((part) => part.origins.filter(isEntryOrigin))
}

function headingText(number: number, entry: ExportedEntry): string {
  return `Entry ${number}: ${entryLabel(entry)}`
}

/**
 * The fragment by which most renderers of GFM let a heading be reached: lower case, punctuation left out, hyphens for
 * spaces. CommonMark itself names none; where it is not understood, the entry's number still leads there.
 */
function fragmentOf(headingWords: string): string {
  return `#${headingWords
    .toLowerCase()
    .replace(/[^a-z0-9 -]/gu, '')
    .replaceAll(' ', '-')}`
}

/** The line in which a step names the entries that it rests on; undefined where there is none. */
export function maybeEntryNames(step: ExportedStep, entries: NumberedEntries): Paragraph | undefined {
  return maybeNames(originsOf(step), entries)
}

/** The same of a part of the procedure itself. */
export function maybeNames(origins: readonly Origin[], entries: NumberedEntries): Paragraph | undefined {
  const ids = new Set(origins.filter(isEntryOrigin).map((origin) => origin.id))
  const named = [...entries].filter(([id]) => ids.has(id)).map(([, numbered]) => numbered)
  if (named.length === 0) return undefined
  const links = named.flatMap(({ number, entry }, i): PhrasingContent[] => [
    ...(i === 0 ? [] : [text(', ')]),
    {
      type: 'link',
      url: fragmentOf(headingText(number, entry)),
      title: null,
      children: [text(`Entry ${number}`)],
    },
  ])
  return paragraph(text('Rests on: '), ...links)
}

/** The appendix; nothing when there are no entries. */
export function journalBlocks(entries: NumberedEntries, footnotes: Footnotes): RootContent[] {
  if (entries.size === 0) return []
  const blocks = [...entries.values()].flatMap(({ number, entry }): RootContent[] => [
    heading(3, [text(headingText(number, entry))]),
    ...embedMarkdown(entry.text, `entry ${number}`, footnotes),
  ])
  return [heading(2, [text('Journal')]), ...blocks]
}
