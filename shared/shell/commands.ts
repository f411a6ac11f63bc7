/** Telling the commands of a script apart, and the words of a command. */
import {
  cursorAt,
  isAtEnd,
  NotShell,
  readLineEnd,
  readTextEnd,
  skipLines,
  Unfinished,
  type Cursor,
} from './cursor.ts'
import { readLine, readList } from './grammar.ts'
import type { ShellCommand, ShellWord } from './syntax.ts'

/**
 * The commands of a script, in order: each as it would be typed at one prompt, over as many lines as it needs
 * (here-documents, quotes, loops, joined lines). `a; b` is one. Comments and empty lines between commands are none.
 *
 * Where the grammar does not allow a line, that line is a command of its own with its `problem`, and reading goes on
 * behind it. The last command may be unfinished.
 */
export function splitCommands(script: string): ShellCommand[] {
  const commands: ShellCommand[] = []
  let at = 0
  for (;;) {
    const cursor = cursorAt(script, at, readList)
    const start = maybeStart(cursor)
    if (start === null) return commands
    commands.push(readOne(cursor, start))
    at = cursor.at
  }
}

/** Whether a shell would run this, instead of asking for a further line. True of what it would refuse, too. */
export function isComplete(command: string): boolean {
  return splitCommands(command).every((one) => one.isComplete)
}

/** The words of a command: of all simple commands in it, names and arguments, as they are written. */
export function wordsOf(command: string): ShellWord[] {
  return splitCommands(command).flatMap(({ simple }) => simple.flatMap(({ words }) => words))
}

/** Where the next command begins, null where none follows. */
function maybeStart(cursor: Cursor): number | null {
  try {
    skipLines(cursor)
  } catch (error) {
    if (!(error instanceof Unfinished)) throw error
  }
  if (isAtEnd(cursor)) return null
  cursor.end = cursor.at
  return cursor.at
}

function readOne(cursor: Cursor, from: number): ShellCommand {
  let problem: string | null = null
  let isWhole = true
  try {
    readLine(cursor)
    if (isAtEnd(cursor)) readTextEnd(cursor)
    else readToLineEnd(cursor)
  } catch (error) {
    if (error instanceof Unfinished) isWhole = false
    else if (error instanceof NotShell) problem = error.message
    else throw error
  }
  if (problem !== null) isWhole = readPast(cursor)
  if (!isWhole) cursor.at = cursor.end = cursor.text.length
  const text = cursor.text.slice(from, cursor.end).trimEnd()
  const { simple, redirects } = cursor
  return { from, to: from + text.length, text, isComplete: isWhole, problem, simple, redirects }
}

/** The line end that ends a command, with the here-documents behind it. It is not a part of the command. */
function readToLineEnd(cursor: Cursor): void {
  const before = cursor.end
  const isDocumentAwaited = cursor.awaited.length > 0
  readLineEnd(cursor)
  if (!isDocumentAwaited) cursor.end = before
}

/** Goes on behind a line that could not be read. False where a here-document of it has no end. */
function readPast(cursor: Cursor): boolean {
  const end = cursor.text.indexOf('\n', cursor.at)
  cursor.at = cursor.end = end === -1 ? cursor.text.length : end
  try {
    if (end === -1) readTextEnd(cursor)
    else readToLineEnd(cursor)
    return true
  } catch (error) {
    if (error instanceof Unfinished) return false
    throw error
  }
}
