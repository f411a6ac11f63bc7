/**
 * A procedure as one Markdown document (CommonMark 0.31.2 with tables and footnotes of GFM):
 * built as a syntax tree and written by a library, so that no text can break out of its place.
 */
import type { BlockContent, FootnoteReference, ListItem, PhrasingContent, RootContent } from 'mdast'
import { stepPartKinds } from '../lab/model.ts'
import { maybeWebAddress } from '../markdown/addresses.ts'
import { toOneLine } from '../markdown/words.ts'
import { embedMarkdown } from './embed.ts'
import { createFootnotes, type Footnotes } from './footnotes.ts'
import type { ExportedPart, ExportedProcedure, ExportedSource, ExportedStep, ExportOptions } from './input.ts'
import { entriesOf, journalBlocks, maybeEntryNames, type NumberedEntries } from './journal.ts'
import { momentLabel, partLabels } from './labels.ts'
import { heading, paragraph, stepItem, withFootnotes, withLabel } from './layout.ts'
import { mergeText, text } from './nodes.ts'
import { serialiseMarkdown } from './serialise.ts'

/**
 * Writes a procedure: title, purpose, numbered steps with their labelled parts (a caution before what is done),
 * the sources as footnotes, and on request the journal entries that the steps rest on.
 * The same values give the same bytes. Line ends are `\n`; the text ends with one.
 */
export function procedureToMarkdown(procedure: ExportedProcedure, options: ExportOptions): string {
  const footnotes = createFootnotes()
  const entries = options.journal ? entriesOf(procedure) : new Map<never, never>()
  const body: RootContent[] = [
    heading(1, titlePhrases(procedure.title, footnotes)),
    ...purposeBlocks(procedure.purpose, footnotes),
    ...stepBlocks(procedure.steps, footnotes, entries),
    ...journalBlocks(entries, footnotes),
  ]
  return serialiseMarkdown({ type: 'root', children: [...body, ...footnotes.definitions()] })
}

/** A heading has one line; words that are formatted stay so. */
function titlePhrases(title: string, footnotes: Footnotes): PhrasingContent[] {
  const line = toOneLine(title)
  if (line === '') return [text('Untitled procedure')]
  const [first, ...rest] = embedMarkdown(line, 'title', footnotes)
  return first?.type === 'paragraph' && rest.length === 0 ? first.children : [text(line)]
}

function purposeBlocks(purpose: string, footnotes: Footnotes): RootContent[] {
  const blocks = embedMarkdown(purpose, 'purpose', footnotes)
  return blocks.length === 0 ? [] : [heading(2, [text('Purpose')]), ...blocks]
}

function stepBlocks(
  steps: readonly ExportedStep[],
  footnotes: Footnotes,
  entries: NumberedEntries,
): RootContent[] {
  if (steps.length === 0) return []
  const items = steps.map((step, i) => toItem(step, i + 1, footnotes, entries))
  return [
    heading(2, [text('Steps')]),
    { type: 'list', ordered: true, start: 1, spread: true, children: items },
  ]
}

function toItem(
  step: ExportedStep,
  number: number,
  footnotes: Footnotes,
  entries: NumberedEntries,
): ListItem {
  const parts = stepPartKinds.flatMap((kind) => step.parts.filter((part) => part.kind === kind))
  const blocks = parts.flatMap((part, i) => partBlocks(part, `step ${number}.${i}`, footnotes))
  const names = maybeEntryNames(step, entries)
  return stepItem(names ? [...blocks, names] : blocks)
}

function partBlocks(part: ExportedPart, name: string, footnotes: Footnotes): BlockContent[] {
  const blocks = embedMarkdown(part.text, name, footnotes)
  if (blocks.length === 0) return []
  return withFootnotes(withLabel(partLabels[part.kind], blocks), sourceMarks(part, footnotes))
}

function sourceMarks(part: ExportedPart, footnotes: Footnotes): FootnoteReference[] {
  const keys = new Set<string>()
  return part.origins.flatMap((origin) => {
    if (origin.kind !== 'source') return []
    const { taken, page = null } = origin.source
    const key = JSON.stringify(['source', origin.id, taken, page])
    if (keys.has(key)) return []
    keys.add(key)
    return [footnotes.refer(key, () => [paragraph(...sourcePhrases(origin.source))])]
  })
}

/**
 * Title, address, page, and when the text was taken. The full stop at the end is needed: a reader without footnotes takes
 * `[^1]: word "words"` for the definition of a link (CommonMark §4.7) and would hide it.
 */
function sourcePhrases(source: ExportedSource): PhrasingContent[] {
  const address = source.address === null ? undefined : maybeWebAddress(source.address)
  const named: PhrasingContent[] = [text(`Source: ${toOneLine(source.title) || 'untitled'}`)]
  if (address !== undefined)
    named.push(text(', '), { type: 'link', url: address, title: null, children: [text(address)] })
  else if (source.address) named.push(text(`, ${toOneLine(source.address)}`))
  if (source.page) named.push(text(`, ${toOneLine(source.page)}`))
  if (source.taken !== null) named.push(text(`, taken ${momentLabel(source.taken)}`))
  return mergeText([...named, text('.')])
}
