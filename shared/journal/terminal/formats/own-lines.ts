/**
 * The lines that script(1) writes into its log itself: at the start of a session and at its end. They are none of the
 * session's bytes. Their words are translated where the system's language is another one, so they are known by their form:
 *
 *     Script started on 2026-11-25 06:30:40+00:00 [COMMAND="…" TERM="xterm" TTY="/dev/pts/0" COLUMNS="80" LINES="24"]
 *     Script started on 2026-11-25 06:30:40+00:00 [<not executed on terminal>]
 *     Script done on 2026-11-25 06:30:40+00:00 [COMMAND_EXIT_CODE="3"]
 *     Script done on 2026-11-25 06:30:40+00:00 [<max output size exceeded>]
 *
 * as util-linux has written them since version 2.35 (term-utils/script.c), and, of older ones and of BSD, without the
 * bracket and with the date as ctime(3) has it.
 */
import { toAscii } from './bytes.ts'

/** What a session's first line says. */
export interface Opening {
  /** How many bytes the line has, with its end. */
  readonly length: number
  readonly startedMs: number | null
  readonly columns: number | null
  readonly rows: number | null
}

/** What a session's last line says. */
export interface Closing {
  readonly endedMs: number | null
  readonly exitCode: number | null
}

/** A command of several lines stands in the first line as it is; it may be as long as a command line may (bytes). */
export const longestOpening = 160 * 1024
/** Of the last line, with the line end before it (bytes). */
export const longestClosing = 400

const isoMoment = /(\d{4}-\d\d-\d\d) (\d\d:\d\d:\d\d)([+-]\d\d:?\d\d)/
/** What stands for the words, in any language, at most so many characters. */
const words = (most: number): string => `[^\\n\\r\\u001b]{1,${most}}?`
const moment = String.raw`\d{4}-\d\d-\d\d \d\d:\d\d:\d\d[+-]\d\d:?\d\d`
const opens = new RegExp(String.raw`^${words(80)}${moment} \[`)
const opensPlain = /^Script started on [^\n\r[]{8,60}\r?\n/
const opened = /(?:COLUMNS="(\d+)" LINES="(\d+)"|<[^<>\n]{1,80}>)\]\r?\n/g
const closed = new RegExp(
  String.raw`^${words(80)}${moment} \[(?:COMMAND_EXIT_CODE="(\d+)"|<[^<>\n]{1,120}>)\]$`,
)
const closedPlain = /^Script done on [^\n\r[]{8,60}$/

/**
 * The session's first line at the start of these bytes. `more`: it may be one, once further bytes are there.
 *
 * @param isAll no further bytes come
 * @param isLive then only the untranslated words are waited for, since everything waited for is shown late
 */
export function findOpening(bytes: Uint8Array, isAll: boolean, isLive: boolean): Opening | 'more' | null {
  const isEnough = isAll || bytes.length >= longestOpening
  const head = toAscii(bytes.subarray(0, 200))
  if (opens.test(head)) return findEndOfOpening(bytes) ?? (isEnough ? null : 'more')
  const plain = opensPlain.exec(head)
  if (plain) return { length: plain[0].length, startedMs: null, columns: null, rows: null }
  if (isAll || head.length === 200 || head.includes('\n')) return null
  return !isLive || isBegunWith(head, 'Script started on ') ? 'more' : null
}

function isBegunWith(head: string, words: string): boolean {
  return head.slice(0, words.length) === words.slice(0, head.length)
}

function findEndOfOpening(bytes: Uint8Array): Opening | null {
  const text = toAscii(bytes.subarray(0, longestOpening))
  opened.lastIndex = 0
  const found = opened.exec(text)
  if (found === null) return null
  return {
    length: found.index + found[0].length,
    startedMs: maybeMoment(text),
    columns: maybeSize(found[1]),
    rows: maybeSize(found[2]),
  }
}

/**
 * Reads a line, without its ends, as the session's last one.
 * @param isCut the file ends within this line
 */
export function maybeClosing(line: Uint8Array, isCut = false): Closing | null {
  if (line.length > longestClosing || line.at(-1) === 13) return null
  if (isCut && toAscii(line).startsWith('Script done on ')) return { endedMs: null, exitCode: null }
  const isBracketed = line.at(-1) === 0x5d && (line.at(-2) === 0x22 || line.at(-2) === 0x3e)
  if (!isBracketed && line[0] !== 0x53) return null
  const text = toAscii(line)
  const found = isBracketed ? closed.exec(text) : closedPlain.exec(text)
  if (found === null) return null
  return { endedMs: maybeMoment(text), exitCode: found[1] === undefined ? null : Number(found[1]) }
}

/** Says whether bytes that begin with a line end and hold no further one may still become a session's last line. */
export function mayBecomeClosing(tail: Uint8Array, isLive: boolean): boolean {
  if (tail.length > longestClosing || tail.includes(13) || tail.includes(27)) return false
  return !isLive || isBegunWith(toAscii(tail.subarray(1)), 'Script done on ')
}

/** The time that a text names first in the form of ISO 8601 with a blank, as milliseconds since 1970. */
export function maybeMoment(text: string): number | null {
  const found = isoMoment.exec(text)
  if (found === null) return null
  const ms = Date.parse(`${found[1]}T${found[2]}${found[3]!.replace(/^(...)(\d\d)$/, '$1:$2')}`)
  return Number.isNaN(ms) ? null : ms
}

/** A terminal's width or height; null for what no terminal has. */
export function maybeSize(digits: string | undefined): number | null {
  const size = Number(digits)
  return Number.isInteger(size) && size >= 1 && size <= 10_000 ? size : null
}
