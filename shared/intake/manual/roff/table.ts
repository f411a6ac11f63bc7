/** Tables of tbl(1), between `.TS` and `.TE`. */
import { toOneLine, wordsOf } from '../../../markdown/words.ts'
import type { PhrasingContent, RootContent } from 'mdast'
import { tableOf, type Row } from '../tables.ts'
import type { Machine, Macro } from './machine.ts'
import { toPhrasing } from './phrasing.ts'
import { readFormats, readTableSource, type ColumnFormat } from './table-format.ts'

interface Rows {
  readonly rows: Row[]
  /** A rule stands behind the first row, or all of it is bold. */
  hasHeader: boolean | undefined
  readonly above: RootContent[]
}

const begin: Macro = (machine) => {
  const lines = linesOf(machine)
  machine.flow.close()
  const { rows, hasHeader } = readRows(machine, lines)
  const isListing = rows.every((row) => row.length < 2)
  if (isListing) {
    for (const row of rows) if (row[0] && row[0].length > 0) addLine(machine, row[0])
    machine.flow.close()
    return
  }
  const table = tableOf(rows, hasHeader)
  if (table) machine.flow.block(table)
}

/** One column is no table: its lines stand one below the other. */
function addLine(machine: Machine, cell: readonly PhrasingContent[]): void {
  machine.flow.block({ type: 'paragraph', children: [...cell] })
}

function linesOf(machine: Machine): string[] {
  const lines: string[] = []
  for (let line = machine.input.nextRaw(); line !== undefined; line = machine.input.nextRaw()) {
    if (/^[.']\s*TE\b/u.test(line)) break
    const isComment = /^[.']?\s*\\"/u.test(line)
    if (!isComment) lines.push(line)
  }
  return lines
}

function readRows(machine: Machine, lines: readonly string[]): Rows {
  const source = readTableSource(lines)
  const found: Rows = { rows: [], hasHeader: undefined, above: [] }
  let formats: readonly (readonly ColumnFormat[])[] = source.formats
  let ofFormat = 0
  for (let at = 0; at < source.data.length;) {
    const line = source.data[at]!
    if (/^\.\s*T&/u.test(line)) {
      const next = readFormats(source.data, at + 1)
      formats = next.formats
      ofFormat = 0
      at = next.end
    } else if (isRule(line)) {
      if (found.rows.length === 1) found.hasHeader = true
      at += 1
    } else if (/^[.'](?!\d)/u.test(line) && line !== '.') {
      machine.read(line)
      at += 1
    } else {
      const format = formats[Math.min(ofFormat, formats.length - 1)] ?? []
      const { cells, end } = readCells(source.data, at, source.separator)
      machine.budget.spendNodes(3 * cells.length)
      found.rows.push(cells.map((cell, i) => toCell(machine, cell, format[i]?.font ?? 'R')))
      ofFormat += 1
      at = end
    }
  }
  return found
}

const isRule = (line: string): boolean => /^\s*[_=]\s*$/u.test(line)

const isContinued = (line: string): boolean => /(?:^|[^\\])(?:\\\\)*\\$/u.test(line.slice(-20))

/** The cells of one row; `T{` begins a cell of several lines, which ends at `T}`. */
function readCells(
  data: readonly string[],
  from: number,
  separator: string,
): { cells: string[][]; end: number } {
  const cells: string[][] = []
  let at = from + 1
  let first = data[from]!
  while (isContinued(first) && at < data.length) first = first.slice(0, -1) + data[at++]!
  let rest: string | undefined = first
  while (rest !== undefined) {
    const end: number = rest.indexOf(separator)
    const cell: string = end < 0 ? rest : rest.slice(0, end)
    rest = end < 0 ? undefined : rest.slice(end + separator.length)
    if (!/^T\{\s*$/u.test(cell)) {
      cells.push([cell])
      continue
    }
    const block: string[] = []
    while (at < data.length && !data[at]!.startsWith('T}')) block.push(data[at++]!)
    const last = data[at] ?? ''
    at += 1
    cells.push(block)
    const behind = last.indexOf(separator)
    rest = behind < 0 ? undefined : last.slice(behind + separator.length)
  }
  return { cells, end: at }
}

/** Signs for a drawn line or an empty place within a cell. */
const drawn = /^(?:\\?[_=]|\\\^|\\R.)$/u

function toCell(machine: Machine, lines: readonly string[], font: string): PhrasingContent[] {
  if (lines.length === 1 && drawn.test(lines[0]!.trim())) return []
  machine.style.reset()
  machine.style.set(font)
  const isPlain = lines.length === 1 && !/^[.']/u.test(lines[0]!)
  const content = isPlain
    ? toPhrasing(machine.runsOf(machine.expand(lines[0]!)))
    : flatten(machine.apart(lines))
  machine.style.reset()
  return content
}

/** Blocks as the content of one line. */
function flatten(blocks: readonly RootContent[]): PhrasingContent[] {
  return blocks.flatMap((block, i): PhrasingContent[] => {
    const own: PhrasingContent[] =
      block.type === 'paragraph' ? block.children : [{ type: 'text', value: toOneLine(wordsOf(block)) }]
    return i === 0 ? own : [{ type: 'text', value: ' ' }, ...own]
  })
}

/** Equations are left as they are written. */
const equation: Macro = () => {}

export const tableMacros: [string, Macro][] = [
  ['TS', begin],
  ['TE', equation],
  ['EQ', equation],
  ['EN', equation],
]
