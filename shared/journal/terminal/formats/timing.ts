/**
 * The timing files of script(1), read as they come. Two formats (script(1) and scriptreplay(1), util-linux 2.38):
 *
 *     classic     0.103901 14                            so many seconds later, so many bytes of output
 *     advanced    O 0.103901 14                          the same; I: of what was typed
 *                 S 0.352624 SIGWINCH ROWS=30 COLS=100   the terminal's size changed
 *                 H 0.000000 START_TIME 2026-11-25 06:30:40+00:00
 */
import { Lines, toAscii } from './bytes.ts'
import { maybeSize } from './own-lines.ts'

/** One line of a timing file. `after`: seconds since the record before. */
export type TimingRecord =
  | { readonly kind: 'output' | 'input'; readonly after: number; readonly bytes: number }
  | {
      readonly kind: 'resize'
      readonly after: number
      readonly columns: number
      readonly rows: number
    }
  /** A signal that changes nothing on the screen. */
  | { readonly kind: 'pause'; readonly after: number }
  | { readonly kind: 'head'; readonly after: number; readonly name: string; readonly value: string }

const byteRecord = /^(?:([OI]) )?(\d{1,12}\.\d{1,9}) (\d{1,15})$/
const signalRecord = /^S (\d{1,12}\.\d{1,9}) SIG([A-Z0-9]+)(?: ROWS=(\d+) COLS=(\d+))?/
const headRecord = /^H (\d{1,12}\.\d{1,9}) ([A-Z_]+)(?: (.*))?$/s

/** Reads one line; null where it is none of a timing file. */
export function maybeTimingRecord(line: string): TimingRecord | null {
  const ofBytes = byteRecord.exec(line)
  if (ofBytes)
    return {
      kind: ofBytes[1] === 'I' ? 'input' : 'output',
      after: Number(ofBytes[2]),
      bytes: Number(ofBytes[3]),
    }
  const signal = signalRecord.exec(line)
  if (signal) return toSignal(Number(signal[1]), maybeSize(signal[4]), maybeSize(signal[3]))
  const head = headRecord.exec(line)
  return head && { kind: 'head', after: Number(head[1]), name: head[2]!, value: head[3] ?? '' }
}

function toSignal(after: number, columns: number | null, rows: number | null): TimingRecord {
  return columns === null || rows === null
    ? { kind: 'pause', after }
    : { kind: 'resize', after, columns, rows }
}

/** Says whether bytes are the start of a timing file: its first whole lines are all of that kind. */
export function isTimingFile(head: Uint8Array): boolean {
  const lines = toAscii(head.subarray(0, 2000)).split(/\r?\n/)
  const whole = lines.slice(0, Math.max(lines.length - 1, 0)).slice(0, 5)
  return whole.length > 0 && maybeTimingRecord(whole[0]!) !== null && whole.every(isTimingLine)
}

/** A command of several lines stands in an advanced file's head as it is, so not every line there is a record. */
function isTimingLine(line: string, at: number, lines: readonly string[]): boolean {
  return maybeTimingRecord(line) !== null || lines.slice(0, at).some((before) => before.startsWith('H '))
}

/** Reads a timing file in pieces. Lines that are no record are counted. */
export class TimingLines {
  private readonly lines = new Lines(longestLine)
  private isInHead = false
  /** Lines that mean nothing here. */
  unknown = 0
  /** The first record's format; null before there is one. */
  isClassic: boolean | null = null;

  *push(bytes: Uint8Array): Generator<TimingRecord> {
    for (const line of this.lines.push(bytes)) yield* this.read(line)
  }

  *end(): Generator<TimingRecord> {
    for (const line of this.lines.end()) yield* this.read(line)
  }

  private *read(line: Uint8Array): Generator<TimingRecord> {
    const record = maybeTimingRecord(toAscii(line))
    if (record !== null) {
      this.isClassic ??= line[0]! < 0x41
      this.isInHead = record.kind === 'head'
      yield record
      // The command of a head may go over several lines.
    } else if (!this.isInHead && line.length > 0) this.unknown += 1
  }
}

const longestLine = 256 * 1024

/** How a timing file's records lie over the bytes of its log. */
export type Layout =
  /** Output alone. */
  | 'output'
  /** Output and what was typed, in one file. */
  | 'both'
  /** Only what was typed. */
  | 'typed'

/** Which files the head of an advanced timing file names. */
export interface NamedLogs {
  readonly output: string | null
  readonly input: string | null
}

/** What a whole timing file counts. */
export interface Counted {
  readonly output: number
  readonly input: number
  readonly names: NamedLogs
  readonly records: number
  readonly unknown: number
}

/** Counts a whole timing file, before it is applied. */
export function countTiming(bytes: Uint8Array): Counted {
  const lines = new TimingLines()
  const counted = { output: 0, input: 0, records: 0 }
  let names: NamedLogs = { output: null, input: null }
  for (const records of [lines.push(bytes), lines.end()])
    for (const record of records) {
      counted.records += 1
      if (record.kind === 'output' || record.kind === 'input') counted[record.kind] += record.bytes
      if (record.kind === 'head') names = withName(names, record.name, record.value)
    }
  return { ...counted, names, unknown: lines.unknown }
}

export function withName(names: NamedLogs, name: string, value: string): NamedLogs {
  const plain = value.slice(value.lastIndexOf('/') + 1)
  if (name === 'OUTPUT_LOG') return { ...names, output: plain }
  return name === 'INPUT_LOG' ? { ...names, input: plain } : names
}

/** The layout that the names tell; null where there are none. */
export function layoutByNames(names: NamedLogs, logName: string): Layout | null {
  if (names.output === null) return names.input === null ? null : 'typed'
  if (names.input === null) return 'output'
  if (names.output === names.input) return 'both'
  return logName === names.input && logName !== names.output ? 'typed' : 'output'
}
