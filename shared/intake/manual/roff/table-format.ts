/** How a table's columns are set (tbl(1)): options up to a semicolon, then formats up to a full stop. */

export interface ColumnFormat {
  /** The letter that says how the column is set, in lower case: l, r, c, n, a, s (spans), ^ (spans downwards). */
  readonly kind: string
  readonly font: string
}

export interface TableSource {
  /** The sign between two cells. */
  readonly separator: string
  /** A row's format; the last one is for all rows that follow. */
  readonly formats: readonly (readonly ColumnFormat[])[]
  readonly data: readonly string[]
}

export function readTableSource(lines: readonly string[]): TableSource {
  let at = 0
  const options = /;\s*$/u.test(lines[0] ?? '') ? lines[at++]! : ''
  const separator = /\btab\s*\(\s*(.)\s*\)/iu.exec(options)?.[1] ?? '\t'
  const { formats, end } = readFormats(lines, at)
  return { separator, formats, data: lines.slice(end) }
}

/** Formats go up to the line that ends in a full stop; rows of them are parted by lines or commas. */
export function readFormats(
  lines: readonly string[],
  from: number,
): { formats: ColumnFormat[][]; end: number } {
  const formats: ColumnFormat[][] = []
  for (let at = from; at < lines.length; at += 1) {
    const line = lines[at]!.trimEnd()
    const isLast = line.endsWith('.')
    for (const row of (isLast ? line.slice(0, -1) : line).split(',')) {
      const columns = readColumns(row)
      if (columns.length > 0) formats.push(columns)
    }
    if (isLast) return { formats, end: at + 1 }
  }
  return { formats, end: lines.length }
}

const column =
  /([LlRrCcNnAaSs^])((?:\([^)]*\)|[fF](?:\([^)]*\)|\[[^\]]*\]|[A-Z]{1,2}\b|\w)|[wWpPvVmM](?:\([^)]*\)|[-+]?[\d.]+)|[bBiIeEtTdDuUxXzZ0-9 .|+-])*)/gu

function readColumns(row: string): ColumnFormat[] {
  return [...row.matchAll(column)].map(([, kind, modifiers]) => ({
    kind: kind!.toLowerCase(),
    font: fontOf(modifiers ?? ''),
  }))
}

function fontOf(modifiers: string): string {
  const plain = modifiers.replace(/[wWpPvVmM](?:\([^)]*\)|[-+]?[\d.]+)/gu, '')
  const named = /[fF](?:\(?\[?)([A-Z]{1,3})/u.exec(plain)?.[1]
  if (named !== undefined) return named
  if (/b/iu.test(plain)) return 'B'
  return /i/iu.test(plain) ? 'I' : 'R'
}
