/** A place in a script, with what has been read on the way. Used while a command is read and thrown away after it. */
import type { HereDocument, Redirect, ShellWord, SimpleCommand } from './syntax.ts'

/** The text ends where the shell would ask for a further line. */
export class Unfinished extends Error {}

/** The grammar does not allow what stands at a place. */
export class NotShell extends Error {}

export interface AwaitedDocument {
  readonly delimiter: ShellWord
  readonly stripsTabs: boolean
  readonly take: (body: HereDocument) => void
}

export interface Cursor {
  readonly text: string
  /** Reads commands up to what closes them. Words hold commands and commands words, so the grammar is given along. */
  readonly readList: (cursor: Cursor) => void
  at: number
  /** Where the last thing that belongs to the command ended. */
  end: number
  /** How many substitutions are open. */
  depth: number
  awaited: AwaitedDocument[]
  simple: SimpleCommand[]
  redirects: Redirect[]
}

export function cursorAt(text: string, at: number, readList: Cursor['readList']): Cursor {
  return { text, readList, at, end: at, depth: 0, awaited: [], simple: [], redirects: [] }
}

export const isAtEnd = (cursor: Cursor): boolean => cursor.at >= cursor.text.length

export const looksAt = (cursor: Cursor, what: string): boolean => cursor.text.startsWith(what, cursor.at)

/** Steps over what stands here, and counts it to the command. */
export function step(cursor: Cursor, length: number): void {
  cursor.at += length
  cursor.end = cursor.at
}

/** Blanks, joined lines and a comment: what stands between two words. */
export function skipBlanks(cursor: Cursor): void {
  const { text } = cursor
  for (;;) {
    const char = text[cursor.at]
    if (char === ' ' || char === '\t' || char === '\r') cursor.at++
    else if (char === '\\' && text[cursor.at + 1] === '\n') {
      cursor.at += 2
      if (isAtEnd(cursor)) throw new Unfinished()
    } else break
  }
  if (text[cursor.at] !== '#') return
  const end = text.indexOf('\n', cursor.at)
  cursor.at = end === -1 ? text.length : end
  cursor.end = cursor.at
}

/** Any number of line ends with blanks and comments between them. */
export function skipLines(cursor: Cursor): void {
  for (;;) {
    skipBlanks(cursor)
    if (cursor.text[cursor.at] !== '\n') return
    readLineEnd(cursor)
  }
}

/** A line end, and behind it the here-documents that the line asked for. */
export function readLineEnd(cursor: Cursor): void {
  step(cursor, 1)
  const { awaited } = cursor
  cursor.awaited = []
  for (const document of awaited) readDocument(cursor, document)
}

/** The end of the text, where a document may still be awaited. */
export function readTextEnd(cursor: Cursor): void {
  if (cursor.awaited.length > 0) throw new Unfinished()
}

function readDocument(cursor: Cursor, { delimiter, stripsTabs, take }: AwaitedDocument): void {
  const from = cursor.at
  const last = unquoted(delimiter.text)
  const lines: string[] = []
  for (;;) {
    if (isAtEnd(cursor)) throw new Unfinished()
    const found = cursor.text.indexOf('\n', cursor.at)
    const lineEnd = found === -1 ? cursor.text.length : found
    const whole = cursor.text.slice(cursor.at, lineEnd)
    const line = stripsTabs ? whole.replace(/^\t+/u, '') : whole
    if (line === last) {
      const text = lines.map((one) => `${one}\n`).join('')
      take({ from, to: cursor.at, text, isLiteral: delimiter.isQuoted })
      cursor.end = lineEnd
      // The line end behind the delimiter also ends the command; where more follows, it is read as blank.
      cursor.at = found === -1 ? lineEnd : lineEnd + 1
      return
    }
    lines.push(line)
    cursor.at = Math.min(lineEnd + 1, cursor.text.length)
    if (found === -1) throw new Unfinished()
  }
}

/** A delimiter without its quotes. Nothing in it is expanded (2.7.4). */
function unquoted(text: string): string {
  return text.replace(
    /'([^']*)'|"([^"]*)"|\\(.)/gsu,
    (_, single, double, escaped) => `${single ?? double ?? escaped}`,
  )
}
