/**
 * From lines that were laid out for a terminal back to what was meant: paragraphs, terms with their bodies, examples.
 * Nothing but indents and blank lines says which is which, so what can't be told for certain is kept line for line.
 */
import type { BlockContent, Code, List, Paragraph, RootContent } from 'mdast'
import { append, item, paragraphOfWords } from './blocks.ts'

export interface Layout {
  /** Columns before the text of a section. */
  readonly base: number
  /** Columns that a line of prose may fill: the longest line's length. */
  readonly width: number
  /** Columns by which a paragraph's first line may be indented: 3 in info texts, else 0. */
  readonly firstLine: number
}

interface Level {
  readonly indent: number
  readonly children: RootContent[]
}

export const indentOf = (line: string): number => line.length - line.trimStart().length

/** The blocks of one section's lines. */
export function toBlocks(lines: readonly string[], layout: Layout): RootContent[] {
  const root: Level = { indent: layout.base, children: [] }
  const levels: Level[] = [root]
  for (const block of splitBlocks(lines)) addBlock(block, levels, layout)
  return root.children
}

/** A block of more lines is read in parts. */
const maxBlock = 1000
/** Items within items. */
const maxLevels = 20

function splitBlocks(lines: readonly string[]): string[][] {
  const blocks: string[][] = []
  let isOpen = false
  for (const line of lines) {
    const isBlank = line.trim() === ''
    if (!isBlank && isOpen && blocks.at(-1)!.length < maxBlock) blocks.at(-1)!.push(line)
    else if (!isBlank) blocks.push([line])
    isOpen = !isBlank
  }
  return blocks
}

function addBlock(block: readonly string[], levels: Level[], layout: Layout): void {
  let rest = withoutFirstIndent(block, levels, layout)
  while (rest.length > 0) {
    const indent = indentOf(rest[0]!)
    while (levels.length > 1 && levels.at(-1)!.indent > indent) levels.pop()
    const level = levels.at(-1)!
    rest = indent > level.indent ? addDeeper(rest, level, layout) : addAtLevel(rest, levels)
  }
}

/** In info texts the first line of a paragraph stands three columns in. */
function withoutFirstIndent(block: readonly string[], levels: readonly Level[], layout: Layout): string[] {
  const first = indentOf(block[0]!) - layout.firstLine
  const isLevel = layout.firstLine > 0 && levels.some(({ indent }) => indent === first)
  const isParagraph = isLevel && block.slice(1).every((line) => indentOf(line) === first)
  return isParagraph ? [block[0]!.slice(layout.firstLine), ...block.slice(1)] : [...block]
}

/** Lines that stand further in than the text around them: an example, or prose that was only set in. */
function addDeeper(lines: readonly string[], level: Level, layout: Layout): string[] {
  const end = lines.findIndex((line) => indentOf(line) <= level.indent)
  const own = lines.slice(0, end < 0 ? undefined : end)
  if (isProse(own, layout)) append(level.children, paragraphOf(own))
  else addExample(own, level)
  return lines.slice(own.length)
}

function addExample(lines: readonly string[], level: Level): void {
  const value = (by: number): string => lines.map((line) => line.slice(by)).join('\n')
  const last = level.children.at(-1)
  const indent = Math.min(...lines.map(indentOf))
  // An example with blank lines in it is one example; its indent is told by its first part.
  const data = last?.type === 'code' ? (last.data as { indent?: number } | undefined) : undefined
  if (last?.type === 'code' && data?.indent !== undefined && indent >= data.indent)
    last.value += `\n\n${value(data.indent)}`
  else append(level.children, { type: 'code', value: value(indent), data: { indent } } as Code)
}

/** Prose was filled: each line but the last reaches so far that the next word had no room. */
function isProse(lines: readonly string[], { width }: Layout): boolean {
  if (lines.length < 2 || lines.some((line) => indentOf(line) !== indentOf(lines[0]!))) return false
  return lines.slice(0, -1).every((line, i) => {
    const next = lines[i + 1]!.trimStart().split(' ')[0]!
    return line.length + 1 + next.length > width - 1
  })
}

function addAtLevel(lines: readonly string[], levels: Level[]): string[] {
  const level = levels.at(-1)!
  const short = levels.length > maxLevels ? undefined : maybeShortTerm(lines, level)
  if (short) {
    openItem(levels, [short.term], short.column)
    return [short.rest, ...lines.slice(1)]
  }
  const indent = indentOf(lines[0]!)
  const end = lines.findIndex((line) => indentOf(line) !== indent)
  const own = lines.slice(0, end < 0 ? undefined : end)
  const next = lines[own.length]
  if (
    levels.length <= maxLevels &&
    next !== undefined &&
    indentOf(next) > indent &&
    (own.length === 1 || own.every((line) => isTerm(line)))
  ) {
    openItem(levels, own, indentOf(next))
    return lines.slice(own.length)
  }
  append(level.children, paragraphOf(own))
  return lines.slice(own.length)
}

const isTerm = (line: string): boolean => line.trim().length <= 100 && !/[^.]\.$/u.test(line)

const mark = /^(?:[•·*+o-]|\(?\w{1,3}[.)]|\[\w{1,3}\])$/u
const option = /^--?\w/u

function startsAlike(line: string, isMark: boolean): boolean {
  const word = line.trim().split(' ')[0]!
  return isMark ? mark.test(word) : option.test(word)
}

interface ShortTerm {
  readonly term: string
  readonly column: number
  readonly rest: string
}

/** A term that left room for its body on the same line: `-a     do not ignore`. */
function maybeShortTerm(lines: readonly string[], level: Level): ShortTerm | undefined {
  const found = /^(\s*)(\S.*?)(\s{2,}|\s)(?=\S)/u.exec(lines[0]!)
  if (!found) return undefined
  const [all, indent, term, gap] = found
  const column = all.length
  if (column > indent!.length + 16) return undefined
  const sibling = (level.children.at(-1) as { data?: { column?: number } } | undefined)?.data?.column
  const next = lines[1] === undefined ? undefined : indentOf(lines[1])
  const isMark = mark.test(term!)
  const isAligned = next === column || (next === undefined && sibling === column)
  // The next line may be the next term of such a list.
  const endsHere = next === undefined || (next === indent!.length && gap!.length > 1)
  const isNext = endsHere && (isMark || option.test(term!)) && gap!.length > 1
  const fits = isAligned && (gap!.length > 1 || isMark) && column > indent!.length + 1
  if (!fits && !(isNext && (lines[1] === undefined || startsAlike(lines[1], isMark)))) return undefined
  return { term: term!, column, rest: ' '.repeat(column) + lines[0]!.slice(column) }
}

function openItem(levels: Level[], terms: readonly string[], column: number): void {
  const level = levels.at(-1)!
  const children: BlockContent[] = []
  item(
    level.children,
    terms.map((term) => [{ type: 'text', value: squeeze(term) }]),
    children,
  )
  const list = level.children.at(-1)!
  list.data = { column } as List['data']
  levels.push({ indent: column, children: children })
}

/** Justified lines hold runs of spaces; a word that was cut at the line's end (U+2010) is one word again. */
function paragraphOf(lines: readonly string[]): Paragraph {
  return paragraphOfWords(
    lines.reduce((text, line) => {
      const words = squeeze(line)
      if (/\p{L}\u2010$/u.test(text)) return text.slice(0, -1) + words
      return /[\p{L}\p{N}]-$/u.test(text) && /^[\p{L}\p{N}]/u.test(words) ? text + words : `${text} ${words}`
    }, ''),
  )
}

const squeeze = (text: string): string => text.replace(/\s+/gu, ' ').trim()
