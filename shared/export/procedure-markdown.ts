/**
 * A procedure as one Markdown document (CommonMark 0.31.2 with tables and footnotes of GFM):
 * built as a syntax tree and written by a library, so that no text can break out of its place.
 */
import type {
  BlockContent,
  FootnoteReference,
  List,
  ListItem,
  Paragraph,
  PhrasingContent,
  RootContent,
} from 'mdast'
import { stepPartKinds } from '../lab/model.ts'
import { maybeWebAddress } from '../markdown/addresses.ts'
import { toOneLine } from '../markdown/words.ts'
import { fetchBlocks, type ListedFetch } from '../procedure/fetches/written.ts'
import { numbersOfLevels } from '../procedure/rows/numbers.ts'
import { withPresentNumbers } from '../procedure/rows/step-links.ts'
import { signalWordMeanings, type SignalWord } from '../safety/signal-words/caution.ts'
import { cautionFromMarkdown, cautionToMarkdown, signalWordOf } from '../safety/signal-words/markdown.ts'
import { embedMarkdown } from './embed.ts'
import { createFootnotes, type Footnotes } from './footnotes.ts'
import type {
  ExportedFile,
  ExportedOwnPart,
  ExportedPart,
  ExportedProcedure,
  ExportedSource,
  ExportedStep,
  ExportOptions,
  Origin,
} from './input.ts'
import { entriesOf, journalBlocks, maybeEntryNames, maybeNames, type NumberedEntries } from './journal.ts'
import { momentLabel, ownPartLabels, partLabels } from './labels.ts'
import { heading, paragraph, stepItem, withFootnotes, withLabel } from './layout.ts'
import { mergeText, text } from './nodes.ts'
import { serialiseMarkdown } from './serialise.ts'

/**
 * Writes a procedure: title, purpose, what is needed and what is to be fetched before, sections with numbered steps and their labelled parts (a
 * caution before what is done), what is checked at the end and how all is undone, the sources as footnotes, and on request
 * the journal entries that the steps rest on.
 * The same values give the same bytes. Line ends are `\n`; the text ends with one.
 */
export function procedureToMarkdown(procedure: ExportedProcedure, options: ExportOptions): string {
  const footnotes = createFootnotes()
  const entries = options.journal ? entriesOf(procedure) : new Map<never, never>()
  const rows = numberedRows(procedure.steps)
  const context: Context = { footnotes, entries, numbers: numbersById(rows) }
  const own = procedure.own ?? []
  const body: RootContent[] = [
    heading(1, titlePhrases(procedure.title, footnotes)),
    ...ownBlocks('Purpose', 'purpose', procedure.purpose, procedure.purposeOrigins ?? [], context),
    ...own.filter(({ kind }) => !standsBehind(kind)).flatMap((part) => toOwn(part, context)),
    ...fetchedBlocks(procedure.fetches ?? []),
    ...rowBlocks(rows, context),
    ...own.filter(({ kind }) => standsBehind(kind)).flatMap((part) => toOwn(part, context)),
    ...journalBlocks(entries, footnotes),
  ]
  return serialiseMarkdown({ type: 'root', children: [...body, ...footnotes.definitions()] })
}

/** What the pieces of one document have in common. */
interface Context {
  readonly footnotes: Footnotes
  readonly entries: NumberedEntries
  /** The numbers of steps by their ids, for references. */
  readonly numbers: ReadonlyMap<string, string>
}

/** A heading has one line; words that are formatted stay so. */
function titlePhrases(title: string, footnotes: Footnotes): PhrasingContent[] {
  const line = toOneLine(title)
  return line === '' ? [text('Untitled procedure')] : linePhrases(line, 'title', footnotes)
}

function linePhrases(line: string, name: string, footnotes: Footnotes): PhrasingContent[] {
  const [first, ...rest] = embedMarkdown(line, name, footnotes)
  return first?.type === 'paragraph' && rest.length === 0 ? first.children : [text(line)]
}

const standsBehind = (kind: ExportedOwnPart['kind']): boolean =>
  kind === 'closing checks' || kind === 'how to undo'

function toOwn({ kind, text, origins = [] }: ExportedOwnPart, context: Context): RootContent[] {
  return ownBlocks(ownPartLabels[kind], kind, text, origins, context)
}

function ownBlocks(
  label: string,
  name: string,
  source: string,
  origins: readonly Origin[],
  { numbers, footnotes, entries }: Context,
): RootContent[] {
  const blocks = embedMarkdown(withPresentNumbers(source, numbers), name, footnotes)
  if (blocks.length === 0) return []
  const names = maybeNames(origins, entries)
  return [
    heading(2, [text(label)]),
    ...withFootnotes(blocks, sourceMarks(origins, footnotes)),
    ...(names ? [names] : []),
  ]
}

/** Before the steps: it is to be had before the network is cut. */
function fetchedBlocks(fetches: readonly ListedFetch[]): RootContent[] {
  return fetches.length === 0 ? [] : [heading(2, [text('To fetch beforehand')]), ...fetchBlocks(fetches, 3)]
}

interface NumberedRow {
  readonly step: ExportedStep
  readonly number: string
}

function numberedRows(steps: readonly ExportedStep[]): NumberedRow[] {
  const numbers = numbersOfLevels(steps.map(({ level = 'step' }) => level))
  return steps.map((step, i) => ({ step, number: numbers[i]! }))
}

function numbersById(rows: readonly NumberedRow[]): Map<string, string> {
  return new Map(rows.flatMap(({ step, number }) => (step.id ? [[step.id, number] as const] : [])))
}

/** A list for the steps of each section, whose numbers go on from list to list. */
function rowBlocks(rows: readonly NumberedRow[], context: Context): RootContent[] {
  if (rows.length === 0) return []
  const blocks: RootContent[] = [heading(2, [text('Steps')])]
  let list: List | null = null
  rows.forEach(({ step, number }, at) => {
    if (step.level === 'section') {
      list = null
      blocks.push(heading(3, sectionPhrases(step, `section ${at}`, context)))
    } else if (number.includes('.')) {
      appendSubStep(list!.children.at(-1)!, toItem(step, `step ${at}`, context, number))
    } else {
      if (!list)
        blocks.push(
          (list = { type: 'list', ordered: true, start: Number(number), spread: true, children: [] }),
        )
      list.children.push(toItem(step, `step ${at}`, context))
    }
  })
  return blocks
}

function sectionPhrases(step: ExportedStep, name: string, { footnotes }: Context): PhrasingContent[] {
  const line = toOneLine(step.parts.find(({ kind }) => kind === 'heading')?.text ?? '')
  return line === '' ? [text('Section')] : linePhrases(line, name, footnotes)
}

/** Sub-steps stand in a list in their step. Markdown has no numbers such as 2.1, so they are words. */
function appendSubStep(step: ListItem, item: ListItem): void {
  const last = step.children.at(-1)
  if (last && subStepLists.has(last)) (last as List).children.push(item)
  else {
    const list: List = { type: 'list', ordered: false, spread: true, children: [item] }
    subStepLists.add(list)
    step.children.push(list)
  }
}
/** So that a list that a part's own text ends with is not taken for one of these. */
const subStepLists = new WeakSet<object>()

/** @param number of a sub-step, before its first words */
function toItem(step: ExportedStep, name: string, context: Context, number?: string): ListItem {
  const parts = stepPartKinds.flatMap((kind) => step.parts.filter((part) => part.kind === kind))
  const blocks = parts.flatMap((part, i) => partBlocks(part, `${name}.${i}`, context))
  const names = maybeEntryNames(step, context.entries)
  const whole = [...headBlocks(step), ...blocks, ...(names ? [names] : [])]
  return stepItem(number === undefined ? whole : withNumber(number, whole))
}

function withNumber(number: string, blocks: readonly BlockContent[]): BlockContent[] {
  const strong: PhrasingContent = { type: 'strong', children: [text(number)] }
  const [first, ...rest] = blocks
  if (first?.type !== 'paragraph') return [paragraph(strong), ...blocks]
  return [paragraph(strong, text(' '), ...first.children), ...rest]
}

/** What must be known before anything of the step is read. */
function headBlocks({ place, pointOfNoReturn }: ExportedStep): BlockContent[] {
  return [
    ...(pointOfNoReturn
      ? [
          paragraph(
            { type: 'strong', children: [text('Point of no return.')] },
            text(' What is done from here on cannot be taken back.'),
          ),
        ]
      : []),
    ...(place ? [paragraph({ type: 'emphasis', children: [text(`${capitalised(place)}:`)] })] : []),
  ]
}

const capitalised = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

function partBlocks(part: ExportedPart, name: string, { footnotes, numbers }: Context): BlockContent[] {
  const signal = part.kind === 'caution' ? signalWordOf(part.text) : null
  // Written in one way, so that every caution opens with its signal word.
  const source = signal ? cautionToMarkdown(cautionFromMarkdown(part.text)) : part.text
  const blocks = embedMarkdown(withPresentNumbers(source, numbers), name, footnotes)
  if (blocks.length === 0) return []
  return withFootnotes(labelled(part, signal, blocks), sourceMarks(part.origins, footnotes))
}

function labelled(
  { kind, file }: ExportedPart,
  signal: SignalWord | null,
  blocks: readonly BlockContent[],
): BlockContent[] {
  if (file) return [filePhrases(file), ...blocks]
  if (signal === null) return withLabel(partLabels[kind], blocks)
  return blocks[0]?.type === 'paragraph' ? [...blocks] : withLabel(signalWordMeanings[signal].word, blocks)
}

/** The path and whose the file is, in the line before its content. */
function filePhrases({ path, owner, group, mode, form }: ExportedFile): Paragraph {
  const who = (owner ?? group) ? `${owner ?? '?'}${group ? `:${group}` : ''}` : ''
  const facts = [who, mode ?? ''].filter((words) => words !== '')
  return paragraph(
    { type: 'strong', children: [text(form === 'diff' ? 'Difference to the file' : partLabels.file)] },
    text(' '),
    { type: 'inlineCode', value: toOneLine(path) || '?' },
    text(facts.length > 0 ? ` (${facts.join(', ')}):` : ':'),
  )
}

function sourceMarks(origins: readonly Origin[], footnotes: Footnotes): FootnoteReference[] {
  const keys = new Set<string>()
  return origins.flatMap((origin) => {
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
