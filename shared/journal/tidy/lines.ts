/** A text as lines. */

export interface Line {
  /** Its number, from 0. */
  readonly n: number
  /** Where it begins in the text, and where its words end; the line end lies between `end` and the next line's `from`. */
  readonly from: number
  readonly end: number
  readonly text: string
}

/** The lines of a text, without their line ends (CommonMark 0.31.2 §2.1). There is always one at least. */
export function linesOf(text: string): Line[] {
  const lines: Line[] = []
  let from = 0
  for (const match of text.matchAll(/\r\n|\n|\r/gu)) {
    lines.push({ n: lines.length, from, end: match.index, text: text.slice(from, match.index) })
    from = match.index + match[0].length
  }
  lines.push({ n: lines.length, from, end: text.length, text: text.slice(from) })
  return lines
}

/** Whether a line has nothing but blanks (CommonMark 0.31.2 §2.1), or is none. */
export function isBlank(line: Pick<Line, 'text'> | undefined): boolean {
  return line === undefined || /^[ \t]*$/u.test(line.text)
}

/** A run of lines: from `first` up to and with `last`. */
export interface Span {
  readonly first: number
  readonly last: number
}

/** How far a line is set in, in columns (a tab goes to the next multiple of four, CommonMark 0.31.2 §2.2). */
export function indentOf(text: string): number {
  let columns = 0
  for (const sign of text) {
    if (sign === '\t') columns += 4 - (columns % 4)
    else if (sign === ' ') columns += 1
    else break
  }
  return columns
}

const opening = /^[ \t]*(?:(?:>|[-+*]|\d{1,9}[.)])[ \t]+)*(?:(`{3,})[^`]*|(~{3,}).*)$/u

/** Which lines belong to fences that stand already, their own lines included. What was never closed goes on to the end. */
export function fencedLines(lines: readonly Line[]): ReadonlySet<number> {
  const fenced = new Set<number>()
  let marker: string | null = null
  for (const { n, text } of lines) {
    if (marker !== null) {
      fenced.add(n)
      const close = /^[ \t>]*(`{3,}|~{3,})[ \t]*$/u.exec(text)?.[1]
      if (close && close[0] === marker[0] && close.length >= marker.length) marker = null
      continue
    }
    const match = opening.exec(text)
    if (!match) continue
    marker = match[1] ?? match[2]!
    fenced.add(n)
  }
  return fenced
}
