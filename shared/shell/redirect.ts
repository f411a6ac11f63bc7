/** Redirections (POSIX.1-2017, Shell Command Language, 2.7), with bash's `&>`, `<<<` and `{name}>`. */
import { isAtEnd, looksAt, NotShell, skipBlanks, step, Unfinished, type Cursor } from './cursor.ts'
import type { Redirect } from './syntax.ts'
import { maybeWord } from './word.ts'

const operators = ['<<<', '<<-', '<<', '<&', '<>', '<', '&>>', '&>', '>>', '>&', '>|', '>']
const descriptor = /(?:\d+|\{[A-Za-z_]\w*\})(?=[<>])/uy

/**
 * Reads the redirection that begins here; false where none does. A here-document's lines come later, with the line
 * end, and `keep` gets it then.
 */
export function maybeRedirect(cursor: Cursor, keep: (redirect: Redirect) => void): boolean {
  const from = cursor.at
  descriptor.lastIndex = from
  const fd = descriptor.exec(cursor.text)?.[0] ?? ''
  const rest = from + fd.length
  const operator = operators.find((one) => cursor.text.startsWith(one, rest))
  if (operator === undefined) return false
  // `<(…)` and `>(…)` are words.
  if ((operator === '<' || operator === '>') && cursor.text[rest + 1] === '(') return false
  step(cursor, fd.length + operator.length)
  skipBlanks(cursor)
  if (isAtEnd(cursor)) throw new Unfinished()
  const isDocument = operator === '<<' || operator === '<<-'
  const target = looksAt(cursor, '\n') ? null : maybeWord(cursor)
  if (target === null) throw new NotShell(`Nothing stands behind ${operator}.`)
  const redirect = { from, to: cursor.at, descriptor: fd === '' ? null : fd, operator, target }
  if (!isDocument) keep({ ...redirect, body: null })
  else {
    const take = (body: Redirect['body']): void => keep({ ...redirect, body })
    cursor.awaited.push({ delimiter: target, stripsTabs: operator === '<<-', take })
  }
  return true
}
