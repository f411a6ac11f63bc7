/** Compound commands and functions (POSIX.1-2017, Shell Command Language, 2.9.4 and 2.9.5). */
import { isAtEnd, looksAt, NotShell, skipBlanks, skipLines, step, Unfinished, type Cursor } from './cursor.ts'
import { isAtCloser, readWordsEnd, wordHere } from './places.ts'
import { maybeNextWord, maybeWord, readArithmetic } from './word.ts'

const readers: Record<string, (cursor: Cursor) => void> = {
  '{': (cursor) => readUntil(cursor, '}'),
  if: readIf,
  while: readLoop,
  until: readLoop,
  for: readFor,
  select: readFor,
  case: readCase,
  '[[': readTest,
  function: readNamedFunction,
}

/** Reads the compound command that begins here; false where none does. */
export function readCompound(cursor: Cursor): boolean {
  if (looksAt(cursor, '((') && readArithmetic(cursor, 2)) return true
  if (looksAt(cursor, '(')) {
    step(cursor, 1)
    cursor.readList(cursor)
    takeSign(cursor, ')')
    return true
  }
  const word = wordHere(cursor)
  const reader = Object.hasOwn(readers, word) ? readers[word] : undefined
  if (reader === undefined) return false
  step(cursor, word.length)
  reader(cursor)
  return true
}

/** What stands behind the name of a function: a compound command, perhaps on a later line. */
export function readFunctionBody(cursor: Cursor): void {
  skipLines(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  if (!readCompound(cursor)) throw new NotShell('A function needs a group of commands.')
}

function readUntil(cursor: Cursor, closer: string): void {
  cursor.readList(cursor)
  takeWord(cursor, closer)
}

function takeWord(cursor: Cursor, ...wanted: readonly string[]): string {
  skipLines(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  const word = wordHere(cursor)
  if (!wanted.includes(word)) throw new NotShell(`${wanted.join(' or ')} is missing.`)
  step(cursor, word.length)
  return word
}

function takeSign(cursor: Cursor, sign: string): void {
  skipLines(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  if (!looksAt(cursor, sign)) throw new NotShell(`${sign} is missing.`)
  step(cursor, sign.length)
}

function readIf(cursor: Cursor): void {
  readUntil(cursor, 'then')
  for (;;) {
    cursor.readList(cursor)
    const word = takeWord(cursor, 'elif', 'else', 'fi')
    if (word === 'elif') readUntil(cursor, 'then')
    if (word === 'else') return readUntil(cursor, 'fi')
    if (word === 'fi') return
  }
}

function readLoop(cursor: Cursor): void {
  readUntil(cursor, 'do')
  readUntil(cursor, 'done')
}

function readFor(cursor: Cursor): void {
  skipBlanks(cursor)
  if (looksAt(cursor, '((')) readArithmetic(cursor, 2)
  else {
    if (maybeWord(cursor) === null)
      throw isAtEnd(cursor) ? new Unfinished() : new NotShell('A name is missing.')
    skipLines(cursor)
    if (wordHere(cursor) === 'in') {
      step(cursor, 2)
      while (maybeNextWord(cursor) !== null);
    }
  }
  readWordsEnd(cursor)
  if (wordHere(cursor) === '{') {
    step(cursor, 1)
    return readUntil(cursor, '}')
  }
  takeWord(cursor, 'do')
  readUntil(cursor, 'done')
}

function readCase(cursor: Cursor): void {
  if (maybeNextWord(cursor) === null)
    throw isAtEnd(cursor) ? new Unfinished() : new NotShell('A word is missing.')
  takeWord(cursor, 'in')
  for (;;) {
    skipLines(cursor)
    if (isAtEnd(cursor)) throw new Unfinished()
    if (wordHere(cursor) === 'esac') return step(cursor, 4)
    readBranch(cursor)
  }
}

function readBranch(cursor: Cursor): void {
  if (looksAt(cursor, '(')) step(cursor, 1)
  for (;;) {
    if (maybeNextWord(cursor) === null) {
      throw isAtEnd(cursor) ? new Unfinished() : new NotShell('A pattern is missing.')
    }
    skipBlanks(cursor)
    if (!looksAt(cursor, '|')) break
    step(cursor, 1)
  }
  takeSign(cursor, ')')
  cursor.readList(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  const end = [';;&', ';;', ';&'].find((one) => looksAt(cursor, one))
  if (end !== undefined) step(cursor, end.length)
  else if (!isAtCloser(cursor) || wordHere(cursor) !== 'esac') throw new NotShell(';; is missing.')
}

/** `[[ … ]]`: words and operators of its own, which are not looked into. */
function readTest(cursor: Cursor): void {
  for (;;) {
    skipLines(cursor)
    if (isAtEnd(cursor)) throw new Unfinished()
    if (wordHere(cursor) === ']]') return step(cursor, 2)
    if (maybeWord(cursor) !== null) continue
    if (looksAt(cursor, ';')) throw new NotShell(']] is missing.')
    step(cursor, 1)
  }
}

function readNamedFunction(cursor: Cursor): void {
  if (maybeNextWord(cursor) === null)
    throw isAtEnd(cursor) ? new Unfinished() : new NotShell('A name is missing.')
  skipBlanks(cursor)
  const brackets = /^\([ \t]*\)/u.exec(cursor.text.slice(cursor.at))?.[0] ?? ''
  step(cursor, brackets.length)
  readFunctionBody(cursor)
}
