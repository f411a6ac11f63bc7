/** From a line of text, its strings and registers already put in, to what is read of it. */
import { delimitedAt, nameAt } from './escape.ts'
import { maybeNumber } from './expression.ts'
import { maybeGlyph } from './glyphs.ts'
import { addText, motionBack, motionOn, type Run, type Style } from './style.ts'

export interface TextLine {
  readonly runs: Run[]
  /** The next line follows without a space (`\c`). */
  readonly isJoined: boolean
}

/** Escapes that are one sign each. */
const signs: Readonly<Record<string, string>> = {
  '-': '-',
  _: '_',
  "'": '´',
  '`': '`',
  e: '\\',
  E: '\\',
  '\\': '\\',
  ' ': '\u00a0',
  '~': '\u00a0',
  '0': '\u00a0',
  t: '\t',
  '.': '.',
}
/** Escapes that show nothing: fine spaces, break points, marks, the ends of blocks. */
const silent = new Set([...'|^&)/,%:{}pruda!?#'])
/** Escapes with something between delimiters that shows nothing. */
const delimited = new Set([...'vLDRxXbSH'])
/** Escapes with a name that shows nothing. */
const named = new Set([...'mMkFYOg'])

interface Reader {
  readonly line: string
  readonly style: Style
  readonly runs: Run[]
  readonly translate: ReadonlyMap<string, string>
  isJoined: boolean
}

/** @param translate signs that a page has other signs printed for (`.tr`) */
export function toRuns(line: string, style: Style, translate: ReadonlyMap<string, string>): TextLine {
  const reader: Reader = { line, style, runs: [], translate, isJoined: false }
  let at = 0
  for (let next = line.indexOf('\\'); next >= 0; next = line.indexOf('\\', at)) {
    put(reader, line.slice(at, next))
    at = escapeAt(reader, next + 1)
  }
  put(reader, line.slice(at))
  return { runs: reader.runs, isJoined: reader.isJoined }
}

function put(reader: Reader, text: string): void {
  const { translate } = reader
  const shown = translate.size === 0 ? text : Array.from(text, (sign) => translate.get(sign) ?? sign).join('')
  addText(reader.runs, shown, reader.style.font)
}

/** Reads the escape whose letter stands at a place. @returns the place behind it */
function escapeAt(reader: Reader, at: number): number {
  const { line } = reader
  const letter = line[at]
  if (letter === undefined) return at
  if (signs[letter] !== undefined) put(reader, signs[letter])
  else if (letter === 'f') return font(reader, nameAt(line, at + 1))
  else if (letter === '(' || letter === '[') return glyph(reader, at)
  else if (letter === 's') return sizeEnd(line, at + 1)
  else if (letter === 'h') return motion(reader, at + 1)
  else if (letter === 'c') reader.isJoined = true
  else if (letter === 'z') return struckAt(reader, at + 1)
  else if (letter === 'o') return overstruck(reader, delimitedAt(line, at + 1))
  else if (letter === 'C' || letter === 'N') return coded(reader, letter, delimitedAt(line, at + 1))
  else if (letter === 'l') return rule(reader, delimitedAt(line, at + 1))
  else if (delimited.has(letter)) return delimitedAt(line, at + 1).end
  else if (named.has(letter)) return nameAt(line, at + 1).end
  else if (!silent.has(letter)) {
    const one = String.fromCodePoint(line.codePointAt(at)!)
    put(reader, one)
    return at + one.length
  }
  return at + 1
}

function font({ style }: Reader, { name, end }: { name: string; end: number }): number {
  style.set(name)
  return end
}

function glyph(reader: Reader, at: number): number {
  const { name, end } = nameAt(reader.line, at)
  put(reader, maybeGlyph(name) ?? '')
  return end
}

/** `\s-2`, `\s0`, `\s(10`, `\s[+1]`, `\s'9'`, and `\s12` for the sizes that begin with 1 to 3. */
function sizeEnd(line: string, at: number): number {
  const start = line[at] === '+' || line[at] === '-' ? at + 1 : at
  const sign = line[start]
  if (sign === "'") return delimitedAt(line, start).end
  if (sign === '(' || sign === '[') return nameAt(line, start).end
  const isLong = start === at && /^[1-3]\d/u.test(line.slice(start, start + 2))
  return Math.min(line.length, start + (isLong ? 2 : 1))
}

/** Motion back and on over a column or more: marks of hanging items, and spaces. */
function motion(reader: Reader, at: number): number {
  const { name, end } = delimitedAt(reader.line, at)
  const by = maybeNumber(name, 'm')?.value ?? 0
  if (by <= -12) addText(reader.runs, motionBack, reader.style.font)
  if (by >= 12) addText(reader.runs, motionOn, reader.style.font)
  return end
}

/** `\zx` prints x without moving on, so the next sign stands over it: it is the one that is read. */
function struckAt({ line }: Reader, at: number): number {
  if (line[at] !== '\\') return at + 1
  return line[at + 1] === '(' || line[at + 1] === '[' ? nameAt(line, at + 1).end : at + 2
}

/** Signs on one place: a letter with its accent where there is one, else the last. */
function overstruck(reader: Reader, { name, end }: { name: string; end: number }): number {
  const inner = toRuns(name, reader.style, reader.translate)
    .runs.map(({ text }) => text)
    .join('')
  put(reader, Array.from(inner).at(-1) ?? '')
  return end
}

function coded(reader: Reader, letter: string, { name, end }: { name: string; end: number }): number {
  put(reader, maybeGlyph(letter === 'C' ? name : `char${name}`) ?? '')
  return end
}

/** A drawn line is a row of underscores on a terminal; more than a line's width is none. */
function rule(reader: Reader, { name, end }: { name: string; end: number }): number {
  const width = Math.min(78, Math.round((maybeNumber(name, 'm')?.value ?? 0) / 24))
  if (width > 0) put(reader, '_'.repeat(width))
  return end
}

/** How wide a text is on a terminal, in basic units. */
export function widthOfRuns(runs: readonly Run[]): number {
  return runs.reduce((sum, { text }) => sum + Array.from(text.replace(/[\ufdd0\ufdd1]/gu, '')).length, 0) * 24
}
