/**
 * Paths: POSIX.1-2017 XBD 3.271 (pathname) and 4.13 (how it is resolved), with Linux's limits (limits.h: PATH_MAX 4096 bytes with
 * the closing null, NAME_MAX 255 bytes). Control characters are refused: they break lines, and POSIX.1-2024 has utilities refuse
 * a newline too.
 */
import { right, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

const LONGEST_PATH = 4095
const LONGEST_NAME = 255

/** Bytes of a text in UTF-8. */
export function utf8Length(text: string): number {
  let bytes = 0
  for (const character of text) {
    const point = character.codePointAt(0)!
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4
  }
  return bytes
}

function maybeFault(text: string): ValueCheck | undefined {
  if (/\p{Cc}/u.test(text))
    return wrong('form', 'There is a line end or another control character in it, which no path should have.')
  if (utf8Length(text) > LONGEST_PATH) return wrong('too long', `A path has at most ${LONGEST_PATH} bytes.`)
  if (text.split('/').some((name) => utf8Length(name) > LONGEST_NAME))
    return wrong('too long', `A name between two slashes has at most ${LONGEST_NAME} bytes.`)
  if (/^[a-z][a-z\d+.-]*:\/\//i.test(text)) return wrong('other type', 'This is a URL, not a path.')
  if (text.startsWith('-'))
    return wrong('form', 'A command would take this for an option, since it begins with “-”.', {
      text: `./${text}`,
      sentence: 'The same file, not to be taken for an option.',
    })
  return undefined
}

/**
 * The same path without doubled slashes and “.” names, as pathname resolution reads it. “..” stays: behind a symbolic link it
 * is not the name before it. Exactly two slashes at the front may mean something else on some systems and stay.
 */
export function pathText(text: string): string {
  const front = /^\/+/.exec(text)?.[0].length ?? 0
  const root = front === 2 ? '//' : front > 0 ? '/' : ''
  const names = text.split('/').filter((name) => name !== '' && name !== '.')
  const path = root + names.join('/')
  if (path === '') return '.'
  const isSlashed = names.length > 0 && /\/\.?$/.test(text)
  // A name that begins with "-" or "~" keeps what keeps it from being an option or someone's home.
  return (
    (root === '' && text.startsWith('./') && /^[-~]/.test(path) ? './' : '') + path + (isSlashed ? '/' : '')
  )
}

function checkPath(text: string): ValueCheck {
  const fault = maybeFault(text)
  if (fault) return fault
  const standard = pathText(text)
  const mend = standard === text ? null : { text: standard, sentence: 'The same path, written shorter.' }
  return right(noteOf(text), mend)
}

function noteOf(text: string): string | null {
  if (text === '~' || text.startsWith('~/'))
    return 'The shell reads “~” as the home of whoever runs the command, and only outside of quotes.'
  if (/[\s"'`$\\*?[\]{}()<>|&;#!]/.test(text))
    return 'It has characters that a shell reads as its own: put it in quotes in a command.'
  return text.startsWith('/')
    ? null
    : 'It does not begin with “/”, so it depends on the directory of the step.'
}

export const path: TypeOfValue = {
  check: checkPath,
  canonical: (text) => (maybeFault(text) ? null : pathText(text)),
  example: '/srv/readings',
}
