/**
 * User names: POSIX.1-2017 XBD 3.437 (portable filename characters, no hyphen first), and what useradd(8) of Debian's passwd says
 * beside it: 32 characters, a “$” at the end let through, all digits, “.” and “..” refused. What adduser.conf(5) asks for by
 * default (NAME_REGEX) is narrower and comes as a note.
 */
import { right, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

const LONGEST_NAME = 32

export function isUserName(text: string): boolean {
  return text.length <= LONGEST_NAME && /^[\w.][\w.-]*\$?$/.test(text) && !/^(?:\d+|\.\.?)$/.test(text)
}

function checkUser(text: string): ValueCheck {
  if (isUserName(text)) {
    const isPlain = /^[a-z][a-z\d_-]*\$?$/.test(text)
    return right(
      isPlain
        ? null
        : 'By default adduser wants a small letter first, then small letters, digits, “_” and “-” only.',
    )
  }
  if (text.length > LONGEST_NAME)
    return wrong('too long', `A user name has at most ${LONGEST_NAME} characters.`)
  if (/^\d+$/.test(text))
    return wrong('form', 'All digits would be taken for a user’s number. A user name has a letter.')
  if (text.startsWith('-'))
    return wrong('form', 'A user name does not begin with a hyphen: a command would take it for an option.')
  const beforeAt = /^([^@]+)@.+$/.exec(text)?.[1] ?? ''
  if (isUserName(beforeAt))
    return wrong('form', 'The user is what stands before the “@”.', {
      text: beforeAt,
      sentence: 'The user alone.',
    })
  return wrong('form', 'A user name has letters a to z, digits, “.”, “_” and “-” only, as in logger.')
}

export const user: TypeOfValue = {
  check: checkUser,
  canonical: (text) => (isUserName(text) ? text : null),
  example: 'logger',
}
