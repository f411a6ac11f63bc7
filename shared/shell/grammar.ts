/** The grammar of commands (POSIX.1-2017, Shell Command Language, 2.9 and 2.10), with what bash and zsh add to it. */
import { readCompound, readFunctionBody } from './compound.ts'
import { isAtEnd, looksAt, NotShell, skipBlanks, skipLines, step, Unfinished, type Cursor } from './cursor.ts'
import { closers, isAtCloser, wordHere } from './places.ts'
import { maybeRedirect } from './redirect.ts'
import type { Redirect, ShellWord } from './syntax.ts'
import { maybeWord } from './word.ts'

const assignment = /^[A-Za-z_]\w*(?:\[[^\]]*\])?\+?=/u

/** One complete command: everything up to the line end that ends it. */
export function readLine(cursor: Cursor): void {
  readAndOr(cursor)
  for (;;) {
    skipBlanks(cursor)
    if (isAtEnd(cursor) || looksAt(cursor, '\n')) return
    if (!readSeparator(cursor))
      throw new NotShell('Something stands behind a command that cannot stand there.')
    skipBlanks(cursor)
    if (isAtEnd(cursor) || looksAt(cursor, '\n')) return
    readAndOr(cursor)
  }
}

/** Commands within a compound command or a substitution, over any number of lines, up to what closes them. */
export function readList(cursor: Cursor): void {
  skipLines(cursor)
  while (!isAtCloser(cursor)) {
    readAndOr(cursor)
    skipBlanks(cursor)
    if (looksAt(cursor, ';;') || looksAt(cursor, ';&')) return
    if (!readSeparator(cursor) && !looksAt(cursor, '\n') && !isAtCloser(cursor)) {
      if (isAtEnd(cursor)) return
      throw new NotShell('Something stands behind a command that cannot stand there.')
    }
    skipLines(cursor)
  }
}

function readSeparator(cursor: Cursor): boolean {
  if (looksAt(cursor, ';;') || looksAt(cursor, '&&')) return false
  if (!looksAt(cursor, ';') && !looksAt(cursor, '&')) return false
  step(cursor, 1)
  return true
}

function readAndOr(cursor: Cursor): void {
  readPipeline(cursor)
  for (;;) {
    skipBlanks(cursor)
    if (!looksAt(cursor, '&&') && !looksAt(cursor, '||')) return
    step(cursor, 2)
    skipLines(cursor)
    readPipeline(cursor)
  }
}

function readPipeline(cursor: Cursor): void {
  skipBlanks(cursor)
  while (['!', 'time', 'coproc'].includes(wordHere(cursor))) {
    step(cursor, wordHere(cursor).length)
    skipBlanks(cursor)
    if (looksAt(cursor, '-p')) step(cursor, 2)
    skipBlanks(cursor)
    // `time` alone is a command.
    if (isAtEnd(cursor) || looksAt(cursor, '\n') || looksAt(cursor, ';')) return
  }
  readCommand(cursor)
  for (;;) {
    skipBlanks(cursor)
    if (!looksAt(cursor, '|') || looksAt(cursor, '||')) return
    step(cursor, looksAt(cursor, '|&') ? 2 : 1)
    skipLines(cursor)
    readCommand(cursor)
  }
}

function readCommand(cursor: Cursor): void {
  skipBlanks(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  if (readCompound(cursor)) {
    for (;;) {
      skipBlanks(cursor)
      const redirect = maybeRedirect(cursor, (kept) => cursor.redirects.push(kept))
      if (!redirect) return
    }
  }
  if (closers.has(wordHere(cursor))) throw new NotShell(`${wordHere(cursor)} stands where a command should.`)
  readSimple(cursor)
}

function readSimple(cursor: Cursor): void {
  const from = cursor.at
  const assignments: ShellWord[] = []
  const words: ShellWord[] = []
  const redirects: Redirect[] = []
  // The place is kept now, so that commands stand in the order in which they are written.
  const place = cursor.simple.length
  const isSubstituted = cursor.depth > 0
  cursor.simple.push({ from, to: from, assignments, words, redirects, isSubstituted })
  for (;;) {
    skipBlanks(cursor)
    if (maybeRedirect(cursor, (kept) => redirects.push(kept))) continue
    const word = maybeWord(cursor)
    if (word === null) break
    if (words.length === 0 && assignment.test(word.text)) assignments.push(word)
    else words.push(word)
    if (
      words.length === 1 &&
      assignments.length === 0 &&
      /^[ \t]*\([ \t]*\)/u.test(cursor.text.slice(cursor.at))
    ) {
      cursor.simple.length = place
      return readFunction(cursor)
    }
  }
  const last = Math.max(...[...assignments, ...words, ...redirects].map(({ to }) => to))
  if (last === -Infinity) throw new NotShell('A command is missing.')
  cursor.simple[place] = { from, to: last, assignments, words, redirects, isSubstituted }
}

/** `name() …`, behind the name. */
function readFunction(cursor: Cursor): void {
  step(cursor, cursor.text.indexOf(')', cursor.at) + 1 - cursor.at)
  readFunctionBody(cursor)
}
