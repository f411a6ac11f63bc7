/**
 * Files that vim wrote, read from its screens (Vim's documentation, "message.txt": `"file" 12L, 345B written`). The
 * message's numbers of lines and bytes are the proof: only a text of just so many of both is given.
 */
import type { ScreenShot } from '../terminal/found.ts'
import { bytesOf, maybeOfLength } from './blanks.ts'
import type { EditorSave } from './editor.ts'
import { settled, stitched } from './windows.ts'

interface Message {
  readonly path: string
  readonly lines: number
  readonly bytes: number
  readonly end: '\n' | '\r\n'
  readonly isEnded: boolean
}

const written = /^"(.+)" ?((?:\[[^\]]+\] ?)*)(\d+)(?:L| lines?), (\d+)(?:[BC]| bytes?| characters?) written$/
const knownFlags = new Set([
  'New',
  'New File',
  'unix',
  'dos',
  'unix format',
  'dos format',
  'noeol',
  'Incomplete last line',
])

/** What vim wrote, in order, as far as all of it was seen. */
export function vimSaves(shots: readonly ScreenShot[]): EditorSave[] {
  const said = shots.map(maybeSaid)
  return said.flatMap((message, at): EditorSave[] => {
    // The message stays while the text is changed further; only its first screen shows what was written.
    if (message === undefined || message.text === said[at - 1]?.text) return []
    const numbers = maybeMessage(message.text)
    if (!numbers) return [{ path: message.path, content: undefined, isProven: true }]
    const end = said.findIndex((later, index) => index > at && later?.text !== message.text)
    const later = shots.slice(at + 1, end === -1 ? undefined : end)
    const content = maybeContent(shots, at, numbers)
    // A text of the same length under the same message may have been written by the same keys once more.
    const isOne = later.every((shot) => [content, undefined].includes(maybeOfScreen(shot, numbers)))
    return [{ path: message.path, content: isOne ? content : undefined, isProven: true }]
  })
}

/** The message in the last rows, without a ruler behind it. */
function maybeSaid({ lines, rows }: ScreenShot): { text: string; path: string } | undefined {
  for (let row = rows - 1; row >= rows - 3; row--) {
    const text = (lines[row] ?? '').replace(/ {2,}.*$/, '').trimEnd()
    const path = written.exec(text)?.[1]
    if (path !== undefined) return { text, path }
  }
  return undefined
}

function maybeMessage(text: string): Message | undefined {
  const [, path, shown, lines, bytes] = written.exec(text)!
  const flags = Array.from(shown!.matchAll(/\[([^\]]+)\]/g), ([, flag]) => flag!)
  if (flags.some((flag) => !knownFlags.has(flag))) return undefined
  const isEnded = !flags.includes('noeol') && !flags.includes('Incomplete last line')
  return {
    path: path!,
    lines: Number(lines),
    bytes: Number(bytes),
    end: flags.some((flag) => flag.startsWith('dos')) ? '\r\n' : '\n',
    isEnded,
  }
}

function maybeContent(shots: readonly ScreenShot[], at: number, message: Message): string | undefined {
  // On leaving, the screen may be moved up before the message's screen is taken; the one before has all rows.
  const bases = [shots[at]!, ...(at > 0 ? [shots[at - 1]!] : [])]
  for (const base of bases) {
    const content = maybeOfScreen(base, message)
    if (content !== undefined) return content
  }
  return maybeStitched(shots, at, message)
}

function maybeOfScreen(shot: ScreenShot, message: Message): string | undefined {
  const plain = maybeFromRows(rowsOf(shot, false), shot, message)
  return plain ?? maybeFromRows(rowsOf(shot, true), shot, message)
}

/** The rows of the text: without the last row, and without the fillers behind the text's end. */
function rowsOf(shot: ScreenShot, isNumbered: boolean): readonly string[] | undefined {
  const rows = shot.lines.slice(0, shot.rows - 1)
  while (rows.length > 0 && /^[~@]$/.test(rows.at(-1)!)) rows.pop()
  return isNumbered ? maybeUnnumbered(rows) : rows
}

/** Rows without the numbers before them (`:set number`). */
function maybeUnnumbered(rows: readonly string[]): readonly string[] | undefined {
  const gutter = /^ *\d+ /.exec(rows[0] ?? '')?.[0].length
  const isCounted = rows.every((row, at) => Number(row.slice(0, gutter)) === at + 1)
  return gutter !== undefined && isCounted ? rows.map((row) => row.slice(gutter)) : undefined
}

function maybeFromRows(
  rows: readonly string[] | undefined,
  shot: ScreenShot,
  message: Message,
): string | undefined {
  const lines = rows && maybeLines(rows, shot, message.lines)
  return lines && maybeProven(lines, message)
}

/** Rows as lines, where the number of lines leaves only one way: no row that fills the screen goes on below, or all do. */
function maybeLines(rows: readonly string[], shot: ScreenShot, count: number): readonly string[] | undefined {
  if (rows.length === count) return rows
  const goesOn = rows.map((row, at) => shot.wrapped[at + 1] === true || row.length === shot.columns)
  if (rows.length - goesOn.slice(0, -1).filter(Boolean).length !== count) return undefined
  const lines: string[] = []
  rows.forEach((row, at) => {
    const before = at > 0 && goesOn[at - 1] ? lines.pop()! : ''
    // Blanks at the end of a row that goes on are not shown.
    lines.push(before.padEnd(Math.ceil(before.length / shot.columns) * shot.columns) + row)
  })
  return lines
}

function maybeProven(lines: readonly string[], message: Message): string | undefined {
  if (lines.length !== message.lines || lines.some((line) => line.includes('\ufffd'))) return undefined
  const contentOf = (all: readonly string[]): string =>
    `${all.join(message.end)}${message.isEnded && all.length > 0 ? message.end : ''}`
  const found = maybeOfLength(lines, message.bytes, (all) => bytesOf(contentOf(all)))
  return found && contentOf(found)
}

/** The text put together from all windows that were shown, where it is longer than one. */
function maybeStitched(shots: readonly ScreenShot[], at: number, message: Message): string | undefined {
  const base = shots[at]!
  if (message.lines < base.rows - 1) return undefined
  // When vim is left, the screen moves up, and its last rows with it.
  const windows = shots.map((shot) =>
    shot.lines.slice(0, -1).some((row) => written.test(row)) ? [] : rowsOf(shot, false)!,
  )
  if (windows.some((rows) => rows.some((row) => row.length >= base.columns))) return undefined
  for (const start of [at, at - 1].filter((index) => index >= 0)) {
    const others = [...settled(windows.slice(0, start + 1)).reverse(), ...settled(windows.slice(start))]
    const content = maybeProven(stitched(windows[start]!, others, 1), message)
    if (content !== undefined) return content
  }
  return undefined
}
