/**
 * A stretch of Markdown as it reads in a line or two: without fences, bars of tables and marks of headings, lists, emphasis
 * and links. What is marked stays as it is written, and so does code.
 *
 * It is read line by line and not parsed: forty of them are made for each letter that is typed into the box. What it takes
 * for a mark by mistake is left out of an excerpt, never of the text.
 */
import type { Range } from '../lab/model.ts'

export interface ReadingText {
  readonly text: string
  /** The same words as before, in order, apart from each other. */
  readonly marks: readonly Range[]
}

/** A stretch that gives way to something shorter or nothing. */
interface Cut extends Range {
  readonly put: string
}

const fences = /^ {0,3}(`{3,}|~{3,})([^`\n]*)$/gm
const delimiterRow = /^\s*\|?\s*:?-+:?\s*(?:\|\s*:?-+:?\s*)*\|?\s*$/
const tableRow = /^\s*\|.*\|\s*$/
const rule = /^\s*(?:([-*_=])(?:\s*\1){2,})\s*$/
/** What a line begins with: quotes, then a heading's sign or a list's, then a box to tick. */
const quotes = /^(?:\s*>)+[ \t]?/
const heading = /^\s{0,3}#{1,6}(?:[ \t]+|$)/
const bullet = /^\s*[-*+][ \t]+/
const numbered = /^\s*\d{1,9}[.)][ \t]+/
const box = /^\[[ xX]\][ \t]+/
/** Emphasis reaches no further. UTF-16 code units. */
const FAR = 400

/**
 * @param stretch of the text that is shown; what stands before it says whether it begins in a fence
 * @param marks within the stretch, UTF-16 code units of the text, in order, apart from each other
 * @returns with ranges of its own text
 */
export function toReadingText(text: string, stretch: Range, marks: readonly Range[]): ReadingText {
  const touchesMark = ({ start, end }: Range): boolean =>
    marks.some((mark) => mark.start < end && start < mark.end)
  const cuts = cutsIn(text, stretch, touchesMark)
    .filter((cut) => !touchesMark(cut))
    .flatMap((cut) => within(cut, stretch))
    .sort((one, other) => one.start - other.start || other.end - one.end)
  return withoutCuts(text, stretch, marks, cuts)
}

function within({ start, end, put }: Cut, stretch: Range): Cut[] {
  const from = Math.max(start, stretch.start)
  if (end > stretch.end) return from < stretch.end ? [{ start: from, end: stretch.end, put: '' }] : []
  return from < end ? [{ start: from, end, put }] : []
}

function withoutCuts(
  text: string,
  stretch: Range,
  marks: readonly Range[],
  cuts: readonly Cut[],
): ReadingText {
  let shown = ''
  let at = stretch.start
  const moved: Range[] = []
  let next = 0
  const takeUpTo = (end: number): void => {
    for (; next < marks.length && marks[next]!.end <= end; next++) {
      const start = shown.length + marks[next]!.start - at
      moved.push({ start, end: start + marks[next]!.end - marks[next]!.start })
    }
    shown += text.slice(at, end)
    at = end
  }
  for (const { start, end, put } of cuts) {
    if (start < at) continue
    takeUpTo(start)
    // Nothing stands at the beginning that parts it from what was before.
    if (shown !== '') shown += put
    at = end
  }
  takeUpTo(stretch.end)
  return { text: shown, marks: moved }
}

/** @param touchesMark whether some of a range is marked */
function cutsIn(text: string, stretch: Range, touchesMark: (range: Range) => boolean): Cut[] {
  const cuts: Cut[] = []
  /** Lines that read on from each other. */
  let paragraph: Range[] = []
  const endParagraph = (): void => {
    const [first, last] = [paragraph[0], paragraph.at(-1)]
    if (first && last) cutInline(text, { start: first.start, end: last.end }, touchesMark, cuts)
    paragraph = []
  }
  let open = fenceBefore(text, stretch.start)
  for (const line of linesOf(text, stretch)) {
    const written = text.slice(line.start, line.end)
    const before = open
    open = fenceBehind(written, open)
    if (open !== null || before !== null) {
      endParagraph()
      if (open !== before) cuts.push({ start: line.start, end: Math.min(text.length, line.end + 1), put: '' })
    } else if (isTableLine(written)) {
      endParagraph()
      cutTableLine(text, line, cuts)
      if (!delimiterRow.test(written)) cutInline(text, line, touchesMark, cuts)
    } else if (written.trim() === '' || rule.test(written)) {
      endParagraph()
      cuts.push({ start: line.start, end: Math.min(text.length, line.end + 1), put: '' })
    } else {
      cutBeginning(written, line.start, cuts)
      paragraph.push(line)
    }
  }
  endParagraph()
  return cuts
}

/** The lines that a stretch touches, without their ends; of very long ones what is near the stretch. */
function* linesOf(text: string, stretch: Range): Generator<Range> {
  let start = lineStart(text, stretch.start)
  while (start < stretch.end) {
    const end = lineEnd(text, start)
    yield { start: Math.max(start, stretch.start - FAR), end: Math.min(end, stretch.end + FAR) }
    start = end + 1
  }
}

function lineStart(text: string, place: number): number {
  return place === 0 ? 0 : text.lastIndexOf('\n', place - 1) + 1
}

function lineEnd(text: string, place: number): number {
  const found = text.indexOf('\n', place)
  return found < 0 ? text.length : found
}

/** The fence that is open where a place's line begins; null for none. */
function fenceBefore(text: string, place: number): string | null {
  return fenceBehind(text.slice(0, lineStart(text, place)), null)
}

/**
 * The fence that is open behind some lines. It is closed by signs of its sort that are no fewer and stand alone (CommonMark
 * 0.31.2 §4.5).
 */
function fenceBehind(lines: string, before: string | null): string | null {
  let open = before
  for (const [, signs, info] of lines.matchAll(fences)) {
    if (open === null) open = signs!
    else if (signs![0] === open[0] && signs!.length >= open.length && info!.trim() === '') open = null
  }
  return open
}

function isTableLine(written: string): boolean {
  return tableRow.test(written) || (written.includes('|') && delimiterRow.test(written))
}

/** Cells stand side by side, rows end with a semicolon. */
function cutTableLine(text: string, { start, end }: Range, cuts: Cut[]): void {
  const written = text.slice(start, end)
  if (delimiterRow.test(written)) {
    cuts.push({ start, end: Math.min(text.length, end + 1), put: '' })
    return
  }
  const behind = text.slice(end + 1, lineEnd(text, end + 1))
  for (const match of written.matchAll(/(?:\s*(?<!\\)\|)+\s*/g)) {
    const from = start + match.index
    const to = from + match[0].length
    const isEnd = to === end
    const put = match.index === 0 ? '' : !isEnd ? ' · ' : isTableLine(behind) ? ';' : ''
    cuts.push({ start: from, end: to, put })
  }
}

function cutBeginning(written: string, at: number, cuts: Cut[]): void {
  let rest = written
  const cut = (pattern: RegExp, put = ''): boolean => {
    const found = pattern.exec(rest)?.[0]
    if (!found) return false
    const start = at + written.length - rest.length
    cuts.push({ start, end: start + found.length, put })
    rest = rest.slice(found.length)
    return true
  }
  cut(quotes)
  if (cut(heading)) return
  if (cut(bullet, '• ')) cut(box)
  else if (numbered.test(rest)) rest = rest.slice(numbered.exec(rest)![0].length)
}

/** Code first, whose inside is left alone; then links; then emphasis and escapes. */
function cutInline(
  text: string,
  { start, end }: Range,
  touchesMark: (range: Range) => boolean,
  cuts: Cut[],
): void {
  const written = text.slice(start, end)
  if (!/[`*_~[\]<\\]/.test(written)) return
  let left = written
  const take = (pattern: RegExp, cut: (match: RegExpExecArray, from: number) => void): void => {
    for (const match of left.matchAll(pattern)) cut(match, start + match.index)
  }
  const hide = ({ index, 0: all }: RegExpExecArray): void => {
    left = left.slice(0, index) + '\u0000'.repeat(all.length) + left.slice(index + all.length)
  }
  const both = (from: number, length: number, sign: number): void => {
    cuts.push({ start: from, end: from + sign, put: '' })
    cuts.push({ start: from + length - sign, end: from + length, put: '' })
  }
  take(/(?<!`)(`+)(?!`)[^]*?[^`]\1(?!`)/g, (match, from) => {
    both(from, match[0].length, match[1]!.length)
    hide(match)
  })
  take(/!?\[([^[\]\n]*)\]\(([^()\s]*)(?:\s+"[^"\n]*")?\)/g, (match, from) => {
    const label = from + match[0].indexOf('[')
    const close = label + 1 + match[1]!.length
    const whole = from + match[0].length
    cuts.push({ start: from, end: label + 1, put: '' })
    // An address that was looked for is shown.
    const isMarked = touchesMark({ start: close + 2, end: close + 2 + match[2]!.length })
    if (isMarked) cuts.push({ start: close, end: close + 2, put: ' (' })
    else cuts.push({ start: close, end: whole, put: '' })
    left = left.slice(0, close - start) + '\u0000'.repeat(whole - close) + left.slice(whole - start)
  })
  take(/<((?:https?|mailto|ftp):[^\s<>]+)>/g, (match, from) => {
    both(from, match[0].length, 1)
    hide(match)
  })
  for (const [sign, pattern] of emphasis) take(pattern, (match, from) => both(from, match[0].length, sign))
  take(/\\[!-/:-@[-`{-~]/g, (_, from) => cuts.push({ start: from, end: from + 1, put: '' }))
}

/** By how many signs on each side; an underscore within a word is none (CommonMark 0.31.2 §6.2). */
const emphasis: readonly (readonly [number, RegExp])[] = [
  [2, new RegExp(`(?<![\\\\*])\\*\\*(?=[^\\s*])[^]{1,${FAR}}?(?<=[^\\s\\\\])\\*\\*`, 'g')],
  [
    2,
    new RegExp(
      `(?<![\\\\\\p{L}\\p{N}_])__(?=[^\\s_])[^]{1,${FAR}}?(?<=[^\\s\\\\])__(?![\\p{L}\\p{N}_])`,
      'gu',
    ),
  ],
  [2, new RegExp(`(?<![\\\\~])~~(?=[^\\s~])[^]{1,${FAR}}?(?<=[^\\s\\\\])~~(?!~)`, 'g')],
  [1, new RegExp(`(?<![\\\\*])\\*(?=[^\\s*])[^*]{0,${FAR}}?(?<=[^\\s\\\\*])\\*(?!\\*)`, 'g')],
  [
    1,
    new RegExp(
      `(?<![\\\\\\p{L}\\p{N}_])_(?=[^\\s_])[^_]{0,${FAR}}?(?<=[^\\s\\\\_])_(?![\\p{L}\\p{N}_])`,
      'gu',
    ),
  ],
]
