/** Where the escape sequences of roff begin and end (roff(7), groff(7) "Escape sequences"). */

import { Exhausted } from './budget.ts'

export interface Name {
  readonly name: string
  /** The place behind it. */
  readonly end: number
}

/** A name behind an escape's letter: one sign, `(` and two signs, or any number within brackets. */
export function nameAt(text: string, at: number): Name {
  const sign = text[at]
  if (sign === '(') return { name: text.slice(at + 1, at + 3), end: Math.min(at + 3, text.length) }
  if (sign !== '[') {
    const point = text.codePointAt(at)
    const one = point === undefined ? '' : String.fromCodePoint(point)
    return { name: one, end: at + one.length }
  }
  const end = text.indexOf(']', at)
  return end < 0
    ? { name: text.slice(at + 1), end: text.length }
    : { name: text.slice(at + 1, end), end: end + 1 }
}

/** What stands between two equal signs, as in `\h'3n'`. Escapes within may hold the sign; a missing end is the line's. */
export function delimitedAt(text: string, at: number): Name {
  const sign = text[at]
  if (sign === undefined) return { name: '', end: at }
  let end = at + 1
  while (end < text.length && text[end] !== sign) end += text[end] === '\\' && text[end + 1] !== sign ? 2 : 1
  return { name: text.slice(at + 1, end), end: Math.min(end + 1, text.length) }
}

/** The text before a comment (`\"`, `\#`). */
export function withoutComment(line: string): string {
  for (let at = line.indexOf('\\'); at >= 0 && at + 1 < line.length; at = line.indexOf('\\', at + 2)) {
    const next = line[at + 1]
    if (next === '"' || next === '#') return line.slice(0, at)
  }
  return line
}

/** The arguments of a macro: parted by spaces, in quotes where they hold some; `""` within quotes is a quote. */
export function splitArgs(text: string): string[] {
  return splitMarked(text).map(({ value }) => value)
}

const maxArgs = 20_000

export interface MarkedArg {
  readonly value: string
  readonly isQuoted: boolean
}

/** The same, with the word whether each stood in quotes. */
export function splitMarked(text: string): MarkedArg[] {
  const args: MarkedArg[] = []
  let at = 0
  for (;;) {
    if (args.length > maxArgs) throw new Exhausted()
    while (text[at] === ' ') at += 1
    if (at >= text.length) return args
    const isQuoted = text[at] === '"'
    const found = isQuoted ? quotedAt(text, at + 1) : plainAt(text, at)
    args.push({ value: found.name, isQuoted })
    at = found.end
  }
}

function quotedAt(text: string, start: number): Name {
  let value = ''
  for (let at = start; ;) {
    const end = text.indexOf('"', at)
    if (end < 0) return { name: value + text.slice(at), end: text.length }
    value += text.slice(at, end)
    if (text[end + 1] !== '"') return { name: value, end: end + 1 }
    value += '"'
    at = end + 2
  }
}

/** An escaped space parts no arguments. */
function plainAt(text: string, start: number): Name {
  let at = start
  while (at < text.length && text[at] !== ' ') at += text[at] === '\\' ? 2 : 1
  at = Math.min(at, text.length)
  return { name: text.slice(start, at), end: at }
}
