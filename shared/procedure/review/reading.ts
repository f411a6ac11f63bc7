/** A procedure as its rules look at it: sentences and commands with their places, read once. */
import { visit } from 'unist-util-visit'
import type { Range } from '../../lab/model.ts'
import { isQuickToParse, maybeTree } from '../../markdown/parse.ts'
import { readScript } from '../../shell/reading/read.ts'
import { changesState, isDestructive } from '../../shell/effects.ts'
import { seenIn, type SeenCommand } from '../../shell/seen.ts'
import { proseOf } from '../ease/prose.ts'
import { once } from './once.ts'
import { sentencesIn } from '../ease/sentences.ts'
import type { FaultPlace, Mend, ReviewedDocument, ReviewedPart, ReviewedRow } from './types.ts'

/** A sentence of prose. In `text`, U+FFFC stands for code and addresses. */
export interface Sentence {
  readonly text: string
  /** For each code unit of `text` its place in the part, and behind them the place of the end. */
  readonly places: readonly number[]
  /** The number of its paragraph, and whether it is the first one there. */
  readonly block: number
  readonly isFirst: boolean
}

/** A fence of shell. */
export interface Script {
  readonly text: string
  /** Where its first line begins in the part. */
  readonly start: number
  /** Where its last line ends. */
  readonly end: number
  /** How many blanks every line of it is indented by in the part. */
  readonly indent: number
  readonly commands: readonly Seen[]
}

/** A command that a script runs, with its place in the part. */
export interface Seen extends Range {
  readonly seen: SeenCommand
  readonly text: string
}

export interface ReadPart {
  readonly part: ReviewedPart
  readonly sentences: readonly Sentence[]
  readonly scripts: readonly Script[]
  /** The values of code within sentences. */
  readonly code: readonly (Range & { readonly value: string })[]
}

export interface ReadRow {
  readonly row: ReviewedRow
  readonly parts: readonly ReadPart[]
  /** In order, of the parts that are followed as a matter of course. */
  readonly commands: readonly (Seen & { readonly part: ReviewedPart })[]
}

export interface Reading {
  readonly document: ReviewedDocument
  readonly own: readonly ReadPart[]
  readonly rows: readonly ReadRow[]
  /** Every part with the row that it belongs to; null for the procedure's own. */
  readonly all: readonly { readonly row: ReadRow | null; readonly read: ReadPart }[]
}

const shells = new Set(['sh', 'bash', 'shell', 'dash', 'ksh', 'zsh'])

export function readDocument(document: ReviewedDocument): Reading {
  const own = document.parts.filter(hasText).map(readPart)
  const rows = document.rows.map((row): ReadRow => {
    const parts = row.parts.filter(hasText).map(readPart)
    const main = parts.filter(({ part }) => part.kind === 'do')
    const commands = main.flatMap(({ part, scripts }) =>
      scripts.flatMap((script) => script.commands.map((command) => ({ ...command, part }))),
    )
    return { row, parts, commands }
  })
  const all = [
    ...own.map((read) => ({ row: null, read })),
    ...rows.flatMap((row) => row.parts.map((read) => ({ row, read }))),
  ]
  return { document, own, rows, all }
}

const hasText = ({ text }: ReviewedPart): boolean => text.trim() !== ''

/** Parts are plain values that stay the same object as long as they stay the same, so each is read once. */
const readPart = once((part: ReviewedPart): ReadPart => ({
  part,
  sentences: sentencesOf(part),
  ...codeOf(part),
}))

function sentencesOf({ kind, text }: ReviewedPart): Sentence[] {
  if (kind === 'file') return []
  return proseOf(text).flatMap((block, number) =>
    sentencesIn(block.text).map(({ start, end }, index) => ({
      text: block.text.slice(start, end),
      places: [...block.places.slice(start, end), endOf(block.places, end)],
      block: number,
      isFirst: index === 0,
    })),
  )
}

/** The place behind a code unit: what stands between it and the next belongs to neither. */
const endOf = (places: readonly number[], end: number): number =>
  end < places.length - 1 ? Math.min(places[end - 1]! + 1, places[end]!) : places[end]!

function codeOf({ kind, text }: ReviewedPart): Pick<ReadPart, 'scripts' | 'code'> {
  const scripts: Script[] = []
  const code: (Range & { value: string })[] = []
  const tree = kind !== 'file' && isQuickToParse(text) && text.includes('`') ? maybeTree(text) : undefined
  if (!tree) return { scripts, code }
  visit(tree, (node) => {
    const start = node.position?.start.offset ?? 0
    const end = node.position?.end.offset ?? 0
    if (node.type === 'inlineCode') code.push({ start, end, value: node.value })
    if (node.type === 'code' && shells.has(node.lang ?? '')) {
      const column = (node.position?.start.column ?? 1) - 1
      scripts.push(readFence(node.value, text.indexOf('\n', start) + 1, column))
    }
  })
  return { scripts, code }
}

function readFence(value: string, start: number, indent: number): Script {
  const lines = { text: value, start, indent }
  const script = { ...lines, end: placeIn(lines, value.length) }
  const root = readScript(value).root
  const commands = seenIn(root, value).map((seen) => ({
    seen,
    text: value.slice(seen.from, seen.to),
    start: placeIn(script, seen.from),
    end: placeIn(script, seen.to),
  }))
  return { ...script, commands }
}

/** Where a place of a script stands in the part. */
export function placeIn(script: Pick<Script, 'text' | 'start' | 'indent'>, at: number): number {
  const lines = script.text.slice(0, at).split('\n').length
  return script.start + at + script.indent * lines
}

/** A range of a sentence as a range of the part. */
export function rangeOf({ places }: Sentence, start = 0, end = places.length - 1): Range {
  return { start: places[start]!, end: endOf(places, end) }
}

/** The words that a fault points at: at most a line, so that a person knows them again. */
export const wordsAt = (part: ReviewedPart, range: Range): string =>
  part.text.slice(range.start, range.end).split('\n')[0]!.slice(0, 200)

/** A fault in a part's text. */
export function faultAt(
  row: ReadRow | null,
  part: ReviewedPart,
  range: Range,
  sentence: string,
  mend: Mend | null = null,
): FaultPlace {
  return { step: row?.row.id ?? null, part: part.id, range, words: wordsAt(part, range), sentence, mend }
}

/** A fault of a row as a whole: it points at what is done there. */
export function faultOf(row: ReadRow, sentence: string): FaultPlace {
  const read = row.parts.find(({ part }) => part.kind === 'do') ?? row.parts[0]
  const first = read?.sentences[0]
  if (!read) return { step: row.row.id, part: null, range: null, words: '', sentence, mend: null }
  const line = { start: 0, end: read.part.text.split('\n')[0]!.length }
  return faultAt(row, read.part, first ? rangeOf(first) : line, sentence)
}

/** The parts that hold instructions. */
export const isInstructing = ({ part }: ReadPart): boolean =>
  part.kind === 'do' ||
  part.kind === 'if it fails' ||
  part.kind === 'undo' ||
  part.kind === 'how to undo' ||
  part.kind === 'closing checks'

export const partOf = (row: ReadRow, kind: ReviewedPart['kind']): ReadPart | undefined =>
  row.parts.find(({ part }) => part.kind === kind)

/** What a command does, by the tables of the shell's programs. */
export const changes = once((seen: SeenCommand): boolean => changesState(seen))
export const destroys = once((seen: SeenCommand): boolean => isDestructive(seen))
