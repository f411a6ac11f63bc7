/** Conditions of `.if`, `.ie` and `.while` (groff(7), "Conditional expressions"), for output to a terminal. */
import { nameAt } from './escape.ts'
import { maybeNumber } from './expression.ts'
import { maybeGlyph } from './glyphs.ts'

export interface Asked {
  isDefined(name: string): boolean
  hasRegister(name: string): boolean
  toWords(text: string): string
}

export interface Condition {
  readonly isTrue: boolean
  /** What stands behind the condition. */
  readonly rest: string
}

const plain: Readonly<Record<string, boolean>> = { n: true, t: false, o: true, e: false, v: false }

export function maybeCondition(words: string, asked: Asked): Condition {
  let text = words.replace(/^[ \t]+/u, '')
  let isNot = false
  while (text.startsWith('!')) {
    isNot = !isNot
    text = text.slice(1).replace(/^ +/u, '')
  }
  const { isTrue, rest } = positive(text, asked)
  return { isTrue: isTrue !== isNot, rest }
}

function positive(text: string, asked: Asked): Condition {
  const letter = text[0] ?? ''
  if (letter in plain && !/^[A-Za-z]/u.test(text[1] ?? ''))
    return { isTrue: plain[letter]!, rest: text.slice(1) }
  if (letter === 'd' || letter === 'r' || letter === 'm' || letter === 'F' || letter === 'S') {
    const found = /^[ ]*(\S+)/u.exec(text.slice(1))
    const name = found?.[1] ?? ''
    const isTrue = letter === 'd' ? asked.isDefined(name) : letter === 'r' && asked.hasRegister(name)
    return { isTrue, rest: text.slice(1 + (found?.[0].length ?? 0)) }
  }
  if (letter === 'c') return hasGlyph(text.slice(1).replace(/^ +/u, ''))
  const number = maybeNumber(text, 'u')
  if (number) return { isTrue: number.value > 0, rest: text.slice(number.end) }
  return compared(text, asked)
}

function hasGlyph(text: string): Condition {
  if (text[0] !== '\\') return { isTrue: text !== '', rest: text.slice(1) }
  const { name, end } = nameAt(text, 1)
  return { isTrue: maybeGlyph(name) !== undefined, rest: text.slice(end) }
}

/** `'one'other'`: both look the same. */
function compared(text: string, asked: Asked): Condition {
  const sign = text[0]
  if (sign === undefined || /[\s\\]/u.test(sign)) return { isTrue: false, rest: text }
  const middle = text.indexOf(sign, 1)
  const end = middle < 0 ? -1 : text.indexOf(sign, middle + 1)
  if (end < 0) return { isTrue: false, rest: '' }
  const isTrue = asked.toWords(text.slice(1, middle)) === asked.toWords(text.slice(middle + 1, end))
  return { isTrue, rest: text.slice(end + 1) }
}
