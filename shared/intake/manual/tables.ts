/** Tables of Markdown (GFM 0.29 §4.10) from rows of cells. */
import type { PhrasingContent, Table, TableRow } from 'mdast'

export type Cell = readonly PhrasingContent[]
export type Row = readonly Cell[]

/**
 * A table must begin with a header row. Where the page has none (`hasHeader` false, or undefined and the first row is
 * not marked throughout), that row is empty.
 */
export function tableOf(rows: readonly Row[], hasHeader: boolean | undefined): Table | undefined {
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0)
  if (width === 0) return undefined
  const isHeader = hasHeader ?? rows[0]!.every((cell) => cell.every(isMarked))
  const shown = isHeader ? rows : [[], ...rows]
  return { type: 'table', children: shown.map((row, i) => toRow(row, width, i === 0 && isHeader)) }
}

const isMarked = (node: PhrasingContent): boolean =>
  node.type === 'text' ? node.value.trim() === '' : node.type !== 'link'

function toRow(row: Row, width: number, isHeader: boolean): TableRow {
  const cells = Array.from({ length: width }, (_, i) => row[i] ?? [])
  return {
    type: 'tableRow',
    children: cells.map((cell) => ({ type: 'tableCell', children: toCell(cell, isHeader) })),
  }
}

/** A cell is one line; a header's cells are bold anyway. */
function toCell(cell: Cell, isHeader: boolean): PhrasingContent[] {
  return cell.flatMap((node): PhrasingContent[] => {
    if (node.type === 'break') return [{ type: 'text', value: ' ' }]
    return isHeader && node.type === 'strong' ? node.children : [node]
  })
}
