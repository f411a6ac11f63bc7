/** The lines of a block with their places in the Markdown, without what quotations and lists put before them. */
import type { Code, Paragraph } from 'mdast'

export interface SourceLine {
  readonly text: string
  /** Where the text begins in the Markdown, UTF-16 code units. */
  readonly from: number
}

/** The lines of a block of code. */
export function codeLines({ value, position }: Code, markdown: string): SourceLine[] {
  const start = position?.start.offset ?? 0
  const lineStart = markdown.lastIndexOf('\n', start - 1) + 1
  const isFenced = /^(?:`{3}|~{3})/u.test(markdown.slice(start, start + 3))
  let at = isFenced ? nextLine(markdown, start) : lineStart
  return value.split('\n').map((line) => {
    const text = line.replace(/\r$/u, '')
    const end = lineEnd(markdown, at)
    const from = Math.max(at, end - text.length)
    at = nextLine(markdown, at)
    return { text, from }
  })
}

/** The lines of a paragraph as they are written. */
export function paragraphLines({ position }: Paragraph, markdown: string): SourceLine[] {
  const start = position?.start.offset ?? 0
  const end = position?.end.offset ?? start
  const lines: SourceLine[] = []
  for (let at = start; at < end; at = nextLine(markdown, at)) {
    const own = markdown.slice(at, Math.min(end, lineEnd(markdown, at)))
    // Behind the first line, blanks and signs of quotations belong to what holds the paragraph.
    const lead = at === start ? 0 : (/^(?:[ \t]*>)*[ \t]*/u.exec(own)?.[0].length ?? 0)
    lines.push({ text: own.slice(lead), from: at + lead })
  }
  return lines
}

function lineEnd(text: string, at: number): number {
  const found = text.indexOf('\n', at)
  if (found === -1) return text.length
  return text[found - 1] === '\r' ? found - 1 : found
}

function nextLine(text: string, at: number): number {
  const found = text.indexOf('\n', at)
  return found === -1 ? text.length : found + 1
}
