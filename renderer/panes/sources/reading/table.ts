/** Tables in a text that is read: rows in line, columns below each other, scrolled within their own box. */
import type { Text } from '@codemirror/state'
import { BlockWrapper, Decoration } from '@codemirror/view'
import type { SyntaxNode } from '@lezer/common'
import type { Drawing } from './drawing.ts'

/**
 * Scrolls sideways, and follows the cursor: it is part of what the cursor walks through, and says so to whoever looks for
 * boxes that no key can scroll.
 */
const box = BlockWrapper.create({
  tagName: 'div',
  attributes: { class: 'st-r-table', contenteditable: 'true' },
  rank: 60,
})
const rows = BlockWrapper.create({
  tagName: 'div',
  attributes: { class: 'st-r-rows', role: 'table' },
  rank: 40,
})

/** Dresses a table (GFM §4.10) that stands at the head of its lines; one within a list or quote keeps its signs. */
export function dressTable(drawing: Drawing, node: SyntaxNode, doc: Text): boolean | void {
  const header = node.getChild('TableHeader')
  const delimiter = node.getChild('TableDelimiter')
  const isAlone = /^ {0,3}$/u.test(drawing.text.slice(doc.lineAt(node.from).from, node.from))
  if (!header || !delimiter || !isAlone || node.parent?.name !== 'Document') {
    for (let number = doc.lineAt(node.from).number; number <= doc.lineAt(node.to).number; number += 1)
      drawing.line(doc.line(number).from, 'st-r-raw')
    return undefined
  }
  const from = doc.lineAt(node.from).from
  const end = Math.min(doc.lineAt(node.to).to + 1, doc.length)
  drawing.wrappers.push(box.range(from, end), rows.range(from, end))
  drawing.hide(doc.lineAt(header.from).to, doc.lineAt(delimiter.from).to)
  const sides = sidesOf(drawing.text.slice(delimiter.from, delimiter.to))
  dressRow(drawing, header, doc, sides, true)
  for (const row of node.getChildren('TableRow')) dressRow(drawing, row, doc, sides, false)
  return undefined
}

type Side = '' | ' st-r-box--end' | ' st-r-box--middle'

function sidesOf(delimiterRow: string): Side[] {
  return delimiterRow
    .trim()
    .replace(/^\||\|$/gu, '')
    .split('|')
    .map((dashes): Side => {
      const isEnd = dashes.trim().endsWith(':')
      if (!isEnd) return ''
      return dashes.trim().startsWith(':') ? ' st-r-box--middle' : ' st-r-box--end'
    })
}

function dressRow(
  drawing: Drawing,
  row: SyntaxNode,
  doc: Text,
  sides: readonly Side[],
  isHead: boolean,
): void {
  const { text } = drawing
  const line = doc.lineAt(row.from)
  drawing.line(line.from, isHead ? 'st-r-row st-r-row--head' : 'st-r-row', { role: 'row' })
  boxesOf(row, line, text).forEach(({ from, to }, at) => {
    const first = text[from] === '|' ? from + 1 : from
    const start = first + /^[ \t]*/u.exec(text.slice(first, to))![0].length
    const last = to - /[ \t]*\|?[ \t]*$/u.exec(text.slice(start, to))![0].length
    drawing.hide(from, start)
    drawing.hide(Math.max(start, last), to)
    const className = `st-r-box${sides[at] ?? ''}`
    const role = isHead ? 'columnheader' : 'cell'
    drawing.outer.push(
      Decoration.mark({ class: className, attributes: { role }, inclusive: true }).range(from, to),
    )
  })
}

/** From one pipe to the next; the last one takes the pipe that closes the row. */
function boxesOf(row: SyntaxNode, line: { from: number; to: number }, text: string) {
  const pipes = row.getChildren('TableDelimiter').map(({ from }) => from)
  const isOpened = pipes[0] !== undefined && text.slice(line.from, pipes[0]).trim() === ''
  const starts = isOpened ? [line.from, ...pipes.slice(1)] : [line.from, ...pipes]
  const isClosed = starts.length > 1 && text.slice(starts.at(-1)! + 1, line.to).trim() === ''
  if (isClosed) starts.pop()
  return starts.map((from, at) => ({ from, to: starts[at + 1] ?? line.to }))
}
