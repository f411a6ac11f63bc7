/** From blocks to Markdown, with the place where each page begins in it. */
import type { BlockContent, PhrasingContent } from 'mdast'
import { serialiseMarkdown } from '../../export/serialise.ts'
import type { PageStart } from '../../lab/model.ts'
import type { Block, PlacedRow } from './blocks.ts'
import { Hyphens } from './hyphens.ts'
import type { Row } from './page.ts'
import { median } from './row.ts'

export interface Written {
  readonly text: string
  readonly pages: readonly PageStart[]
}

/**
 * @param labels one for each page of the document
 * @throws never; a page without text starts where the next one does
 */
export function writeBlocks(blocks: readonly Block[], labels: readonly string[]): Written {
  const hyphens = new Hyphens(
    blocks.filter(({ kind }) => kind !== 'code').flatMap(({ rows }) => rows.map(({ row }) => row.text)),
  )
  const starts = new Map<number, number>()
  const pieces: string[] = []
  let length = 0
  for (const block of blocks) {
    const { text, turns } = writeBlock(block, hyphens)
    for (const { page, at } of [{ page: block.rows[0]!.page, at: 0 }, ...turns])
      if (!starts.has(page)) starts.set(page, length + at)
    pieces.push(text)
    length += text.length + 2
  }
  const text = pieces.length === 0 ? '' : `${pieces.join('\n\n')}\n`
  return { text, pages: toPageStarts(labels, starts, text.length) }
}

function toPageStarts(
  labels: readonly string[],
  starts: ReadonlyMap<number, number>,
  end: number,
): readonly PageStart[] {
  const pages: PageStart[] = []
  let next = end
  for (let page = labels.length - 1; page >= 0; page -= 1) {
    next = Math.min(next, starts.get(page) ?? next)
    pages.push({ start: next, label: labels[page]! })
  }
  return pages.reverse()
}

interface WrittenBlock {
  readonly text: string
  /** Pages that begin within it. */
  readonly turns: readonly { readonly page: number; readonly at: number }[]
}

function writeBlock(block: Block, hyphens: Hyphens): WrittenBlock {
  if (block.kind === 'code') return writeCode(block.rows)
  const upTo = (count: number): string => serialise(block, block.rows.slice(0, count), hyphens)
  const text = upTo(block.rows.length)
  return { text, turns: turnsOf(block.rows, (index) => placeAfter(text, upTo(index))) }
}

/** Where the words go on behind those of the rows before. */
function placeAfter(text: string, before: string): number {
  const at = text.startsWith(before) ? before.length : before.length - 1
  return at + (/^(?:\\?\s)+/u.exec(text.slice(at))?.[0].length ?? 0)
}

function turnsOf(rows: readonly PlacedRow[], placeOf: (index: number) => number): WrittenBlock['turns'] {
  return rows.flatMap(({ page }, index) =>
    index > 0 && page !== rows[index - 1]!.page ? [{ page, at: placeOf(index) }] : [],
  )
}

const bullet = /^[•‣◦▪■●○∙·⁃\uf0b7\uf0a7]\s+/u

function serialise({ kind, level }: Block, rows: readonly PlacedRow[], hyphens: Hyphens): string {
  const texts = rows.map(({ row }) => row.text)
  const words = (text: string): PhrasingContent[] => [{ type: 'text', value: text }]
  const nodes = (): BlockContent => {
    if (kind === 'heading')
      return { type: 'heading', depth: level as 1, children: words(hyphens.join(texts)) }
    if (kind === 'item') {
      const text = hyphens.join(texts).replace(bullet, '')
      const children: BlockContent[] = [{ type: 'paragraph', children: words(text) }]
      return {
        type: 'list',
        ordered: false,
        spread: false,
        children: [{ type: 'listItem', spread: false, children }],
      }
    }
    if (kind === 'paragraph') return { type: 'paragraph', children: words(hyphens.join(texts)) }
    const children = texts.flatMap((text, i): PhrasingContent[] => [
      ...(i > 0 ? [{ type: 'break' as const }] : []),
      ...words(text),
    ])
    return { type: 'paragraph', children }
  }
  return serialiseMarkdown({ type: 'root', children: [nodes()] }).replace(/\n$/u, '')
}

/** At most so many empty lines in code stand for one gap. */
const mostEmptyLines = 3

/** Code keeps its lines and its indentation, both read from places. */
function writeCode(rows: readonly PlacedRow[]): WrittenBlock {
  const width = median(
    rows.flatMap(({ row }) => row.runs.map(({ left, right, text }) => (right - left) / text.length)),
  )
  const pitch = pitchWithin(rows)
  const left = leftsByPage(rows)
  const lines: { text: string; page: number; isGap: boolean }[] = []
  for (const [i, { row, page }] of rows.entries()) {
    const before = rows[i - 1]
    const gap =
      before && before.page === page && row.y > before.row.y
        ? Math.round((row.y - before.row.y) / pitch) - 1
        : 0
    for (let n = 0; n < Math.min(gap, mostEmptyLines); n += 1) lines.push({ text: '', page, isGap: true })
    lines.push({ text: toColumns(row, left.get(page)!, width), page, isGap: false })
  }
  const fence = fenceFor(lines.map(({ text }) => text))
  let at = fence.length + 1
  const turns: { page: number; at: number }[] = []
  for (const [i, { text, page }] of lines.entries()) {
    if (i > 0 && page !== lines[i - 1]!.page) turns.push({ page, at })
    at += text.length + 1
  }
  return { text: [fence, ...lines.map(({ text }) => text), fence].join('\n'), turns }
}

function pitchWithin(rows: readonly PlacedRow[]): number {
  const gaps = rows.slice(1).flatMap(({ row, page }, i) => {
    const before = rows[i]!
    return before.page === page && row.y > before.row.y ? [row.y - before.row.y] : []
  })
  return gaps.length > 0 ? Math.min(median(gaps), rows[0]!.row.size * 1.6) : rows[0]!.row.size * 1.2
}

/** The margin of right pages need not be that of left pages. */
function leftsByPage(rows: readonly PlacedRow[]): ReadonlyMap<number, number> {
  const lefts = new Map<number, number>()
  for (const { row, page } of rows) lefts.set(page, Math.min(lefts.get(page) ?? Infinity, row.left))
  return lefts
}

/** No line of code is longer, in characters. */
const widestLine = 400

function toColumns(row: Row, left: number, width: number): string {
  let line = ''
  for (const [i, run] of row.runs.entries()) {
    const column = width > 0 ? Math.min(widestLine, Math.round((run.left - left) / width)) : 0
    const isApart = i > 0 && (run.isSpaced || run.left - row.runs[i - 1]!.right > width * 0.5)
    if (column > line.length && (i === 0 || isApart)) line = line.padEnd(column)
    else if (isApart) line += ' '
    line += run.text
  }
  return line
}

/** CommonMark 0.31.2 §4.5: longer than any run of backticks within. */
function fenceFor(lines: readonly string[]): string {
  const runs = lines.flatMap((line) => Array.from(line.matchAll(/`+/gu), ([run]) => run.length))
  const longest = runs.reduce((most, length) => Math.max(most, length), 2)
  return '`'.repeat(longest + 1)
}
