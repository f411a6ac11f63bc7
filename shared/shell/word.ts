/** Reading one word: quotes (2.2), expansions (2.6) and where it ends (2.3). */
import { isAtEnd, looksAt, NotShell, skipBlanks, skipLines, step, Unfinished, type Cursor } from './cursor.ts'
import type { ShellWord } from './syntax.ts'

interface Parts {
  value: string
  isLiteral: boolean
  isQuoted: boolean
}

const endsWord = /[\s;&|<>()]/u
const assigned = /^[A-Za-z_]\w*(?:\[[^\]]*\])?\+?=$/u

/** The word that begins here, null where none does. Throws where it is not closed. */
export function maybeWord(cursor: Cursor): ShellWord | null {
  const from = cursor.at
  const parts: Parts = { value: '', isLiteral: true, isQuoted: false }
  while (!isAtEnd(cursor) && readPart(cursor, from, parts));
  if (cursor.at === from) return null
  cursor.end = cursor.at
  const text = cursor.text.slice(from, cursor.at)
  return { from, to: cursor.at, text, value: parts.isLiteral ? parts.value : null, isQuoted: parts.isQuoted }
}

/** Takes what stands next into the word. False where the word ends. */
function readPart(cursor: Cursor, from: number, parts: Parts): boolean {
  const char = cursor.text[cursor.at] ?? ''
  const next = cursor.text[cursor.at + 1] ?? ''
  if (char === '\\') return readEscape(cursor, parts)
  if (char === "'") return quoted(parts, readSingle(cursor))
  if (char === '"') return readDouble(cursor, parts)
  if (char === '`' || char === '$') return readDollar(cursor, parts)
  if ((char === '<' || char === '>') && next === '(') return readSubstitution(cursor, parts, 2)
  if (char === '(' && assigned.test(cursor.text.slice(from, cursor.at))) return readArray(cursor, parts)
  if ('?*+@!'.includes(char) && next === '(' && cursor.at > from) return readPattern(cursor, parts)
  if (endsWord.test(char)) return false
  parts.value += char
  cursor.at++
  return true
}

function quoted(parts: Parts, value: string): true {
  parts.value += value
  parts.isQuoted = true
  return true
}

function readEscape(cursor: Cursor, parts: Parts): true {
  const next = cursor.text[cursor.at + 1]
  if (next === undefined) throw new Unfinished()
  cursor.at += 2
  if (next === '\n') {
    if (isAtEnd(cursor)) throw new Unfinished()
    return true
  }
  return quoted(parts, next)
}

/** `'…'`: nothing in it means anything. */
function readSingle(cursor: Cursor): string {
  const end = cursor.text.indexOf("'", cursor.at + 1)
  if (end === -1) throw new Unfinished()
  const value = cursor.text.slice(cursor.at + 1, end)
  cursor.at = end + 1
  return value
}

/** `"…"`: a backslash escapes only `$`, backquote, `"`, itself and a line end. */
function readDouble(cursor: Cursor, parts: Parts): true {
  cursor.at++
  parts.isQuoted = true
  for (;;) {
    const char = cursor.text[cursor.at]
    if (char === undefined) throw new Unfinished()
    if (char === '"') break
    if (char === '\\') {
      const next = cursor.text[cursor.at + 1]
      if (next === undefined) throw new Unfinished()
      if (next !== '\n') parts.value += '$`"\\'.includes(next) ? next : `\\${next}`
      cursor.at += 2
    } else if (char === '`' || char === '$') readDollar(cursor, parts, true)
    else {
      parts.value += char
      cursor.at++
    }
  }
  cursor.at++
  return true
}

/** What a dollar sign or a backquote begins. */
function readDollar(cursor: Cursor, parts: Parts, isInDouble = false): true {
  if (looksAt(cursor, '`')) return readBackquoted(cursor, parts)
  if (looksAt(cursor, '$((') && readArithmetic(cursor, 3)) return expanded(parts)
  if (looksAt(cursor, '$(')) return readSubstitution(cursor, parts, 2)
  if (looksAt(cursor, '${')) return readBraces(cursor, parts)
  if (looksAt(cursor, "$'") && !isInDouble) return readAnsi(cursor, parts)
  if (looksAt(cursor, '$"') && !isInDouble) {
    cursor.at++
    return readDouble(cursor, parts)
  }
  if (/^\$[A-Za-z_0-9@*#?$!-]/u.test(cursor.text.slice(cursor.at, cursor.at + 2))) expanded(parts)
  parts.value += '$'
  cursor.at++
  return true
}

function expanded(parts: Parts): true {
  parts.isLiteral = false
  return true
}

function readBackquoted(cursor: Cursor, parts: Parts): true {
  cursor.at++
  while (!isAtEnd(cursor) && !looksAt(cursor, '`')) cursor.at += looksAt(cursor, '\\') ? 2 : 1
  if (isAtEnd(cursor)) throw new Unfinished()
  cursor.at++
  return expanded(parts)
}

/** `$'…'`, whose escapes are those of ISO C: the value is left open where it has any. */
function readAnsi(cursor: Cursor, parts: Parts): true {
  cursor.at += 2
  const from = cursor.at
  while (!isAtEnd(cursor) && !looksAt(cursor, "'")) cursor.at += looksAt(cursor, '\\') ? 2 : 1
  if (isAtEnd(cursor)) throw new Unfinished()
  const inner = cursor.text.slice(from, cursor.at)
  cursor.at++
  if (inner.includes('\\')) expanded(parts)
  return quoted(parts, inner)
}

/** `$(…)`, `<(…)`, `>(…)`: commands within a word. */
function readSubstitution(cursor: Cursor, parts: Parts, opening: number): true {
  cursor.at += opening
  cursor.depth++
  cursor.readList(cursor)
  skipLines(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  if (!looksAt(cursor, ')')) throw new NotShell(`A ) is missing.`)
  step(cursor, 1)
  cursor.depth--
  return expanded(parts)
}

/** `$((…))` and `((…))`. False where what begins like it is something else, with nothing read. */
export function readArithmetic(cursor: Cursor, opening: number): boolean {
  const start = cursor.at
  const unread: Parts = { value: '', isLiteral: true, isQuoted: false }
  cursor.at += opening
  let depth = 0
  for (;;) {
    if (isAtEnd(cursor)) throw new Unfinished()
    if (depth === 0 && looksAt(cursor, '))')) break
    if (depth === 0 && looksAt(cursor, ')')) {
      cursor.at = start
      return false
    }
    if (looksAt(cursor, '(')) depth++
    if (looksAt(cursor, ')')) depth--
    readInner(cursor, unread)
  }
  step(cursor, 2)
  return true
}

/** `${…}`, with quotes and expansions in it. */
function readBraces(cursor: Cursor, parts: Parts): true {
  const unread: Parts = { value: '', isLiteral: true, isQuoted: false }
  cursor.at += 2
  // `${#}`, `${#name}`: the sign belongs to the name.
  if (looksAt(cursor, '#')) cursor.at++
  while (!looksAt(cursor, '}')) {
    if (isAtEnd(cursor)) throw new Unfinished()
    readInner(cursor, unread)
  }
  cursor.at++
  return expanded(parts)
}

function readInner(cursor: Cursor, unread: Parts): void {
  const char = cursor.text[cursor.at] ?? ''
  if (char === '\\') readEscape(cursor, unread)
  else if (char === "'") readSingle(cursor)
  else if (char === '"') readDouble(cursor, unread)
  else if (char === '`' || char === '$') readDollar(cursor, unread)
  else cursor.at++
}

/** `name=(…)`: an array of words over any number of lines. */
function readArray(cursor: Cursor, parts: Parts): true {
  cursor.at++
  for (;;) {
    skipLines(cursor)
    if (isAtEnd(cursor)) throw new Unfinished()
    if (looksAt(cursor, ')')) break
    if (maybeWord(cursor) === null) throw new NotShell('An array holds words only.')
  }
  cursor.at++
  return expanded(parts)
}

/** `@(a|b)`: an extended pattern, taken as it stands. */
function readPattern(cursor: Cursor, parts: Parts): true {
  const from = cursor.at
  let depth = 0
  cursor.at++
  do {
    if (isAtEnd(cursor)) throw new Unfinished()
    if (looksAt(cursor, '\n')) throw new NotShell('A pattern is not closed.')
    if (looksAt(cursor, '(')) depth++
    if (looksAt(cursor, ')')) depth--
    readInner(cursor, parts)
  } while (depth > 0)
  parts.value += cursor.text.slice(from, cursor.at)
  return true
}

/** Blanks, then the word behind them. */
export function maybeNextWord(cursor: Cursor): ShellWord | null {
  skipBlanks(cursor)
  return maybeWord(cursor)
}
