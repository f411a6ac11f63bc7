/** Where a list of commands ends, and which word stands at a place. */
import { isAtEnd, looksAt, readLineEnd, skipBlanks, skipLines, step, type Cursor } from './cursor.ts'

/** Words that end a list within a compound command, where a command would begin. */
export const closers = new Set(['then', 'elif', 'else', 'fi', 'do', 'done', 'esac', '}'])

/** Whether a list ends here: at a closing word or sign, or with the text. */
export function isAtCloser(cursor: Cursor): boolean {
  if (isAtEnd(cursor) || looksAt(cursor, ')') || looksAt(cursor, ';;') || looksAt(cursor, ';&')) return true
  return closers.has(wordHere(cursor))
}

/** The unquoted word that stands here, without reading it. */
export function wordHere(cursor: Cursor): string {
  const sticky = /[^\s;&|<>()'"\\$`]+/uy
  sticky.lastIndex = cursor.at
  const word = sticky.exec(cursor.text)?.[0] ?? ''
  const behind = cursor.text[cursor.at + word.length] ?? ' '
  return /[\s;&|<>()]/u.test(behind) ? word : ''
}

/** The line end that a list of words ends with, or a semicolon. */
export function readWordsEnd(cursor: Cursor): void {
  skipBlanks(cursor)
  if (looksAt(cursor, ';')) step(cursor, 1)
  else if (looksAt(cursor, '\n')) readLineEnd(cursor)
  skipLines(cursor)
}
