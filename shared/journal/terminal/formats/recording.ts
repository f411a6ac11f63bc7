/**
 * One way in for every recording of a terminal. Its content says what it is; the name is only for sentences, and to know
 * the log again that a timing file names.
 */
import { decodeText } from '../../../intake/decode.ts'
import { isBinaryText, maybeBinaryKind } from '../../../intake/binary.ts'
import { AsciicastReader, maybeVersion, otherVersion } from './asciicast.ts'
import { Pending, toAscii } from './bytes.ts'
import { refuse, type LogEvent, type RecordingReader, type RefusedLog } from './events.ts'
import { findOpening } from './own-lines.ts'
import type { Measured } from './sessions.ts'
import { isTimingFile } from './timing.ts'
import { TypescriptReader } from './typescript.ts'

export interface RecordingOptions {
  /** The file's own name. */
  readonly name: string
  /** It is read as it is written: what is there is given at once. */
  readonly isLive: boolean
  /** A timing file belongs to it. Of a finished one, its bytes are to be pushed whole, before the recording's. */
  readonly isTimed: boolean
  /** Of a finished recording with a timing file: what `Measuring` found, to see whether they fit. */
  readonly measured: Measured | null
}

/** Of a finished recording, so many bytes are looked at before it is said what it is. */
const lookedAt = 64 * 1024

/** Reads one recording. See `RecordingReader`. */
export function createRecordingReader(options: RecordingOptions): RecordingReader {
  return new RecognisingReader(options)
}

class RecognisingReader implements RecordingReader {
  private readonly pending = new Pending()
  private pendingTiming: Uint8Array[] = []
  private arrivedMs: number | null = null
  private reader: RecordingReader | null = null
  private isRefused = false

  constructor(private readonly options: RecordingOptions) {}

  push(bytes: Uint8Array, arrivedMs: number | null): readonly LogEvent[] {
    if (this.reader !== null) return this.pass(() => this.reader!.push(bytes, arrivedMs))
    if (this.isRefused || bytes.length === 0) return []
    this.pending.add(bytes)
    this.arrivedMs = arrivedMs
    return this.recognise(false)
  }

  pushTiming(bytes: Uint8Array): readonly LogEvent[] {
    if (this.reader !== null) return this.pass(() => this.reader!.pushTiming(bytes))
    this.pendingTiming.push(bytes)
    return []
  }

  end(): readonly LogEvent[] {
    const recognised = this.reader === null && !this.isRefused ? this.recognise(true) : []
    return [...recognised, ...this.pass(() => this.reader?.end() ?? [])]
  }

  private recognise(isAll: boolean): readonly LogEvent[] {
    const { bytes } = this.pending
    const { isLive, name } = this.options
    if (!isLive && !isAll && bytes.length < lookedAt) return []
    if (bytes.length === 0) return isLive ? [] : this.pass(() => [refuse('empty', isEmpty(name))])
    const found = recogniseHead(bytes, isAll, this.options)
    if (found === 'more') return []
    if ('kind' in found) return this.pass(() => [found])
    this.reader = found
    const timing = this.pendingTiming
    this.pendingTiming = []
    return this.pass(() => [
      ...timing.flatMap((piece) => [...found.pushTiming(piece)]),
      ...found.push(this.pending.take(), this.arrivedMs),
    ])
  }

  /** Nothing follows a refusal, and nothing is kept. */
  private pass(read: () => readonly LogEvent[]): readonly LogEvent[] {
    if (this.isRefused) return []
    const events = read()
    const refused = events.findIndex((event) => event.kind === 'refused')
    if (refused === -1) return events
    this.isRefused = true
    this.reader = null
    this.pending.take()
    return events.slice(0, refused + 1)
  }
}

function recogniseHead(
  bytes: Uint8Array,
  isAll: boolean,
  options: RecordingOptions,
): RecordingReader | RefusedLog | 'more' {
  const { name, isLive } = options
  const head = bytes.subarray(0, lookedAt)
  const kind = maybeBinaryKind(head)
  if (kind !== undefined) return refuse('binary', isNoLog(name, kind))
  const opening = findOpening(bytes, isAll, isLive)
  if (opening === 'more') return 'more'
  if (opening !== null) return new TypescriptReader(options)
  const cast = findCast(head, isAll)
  if (cast === 'more') return 'more'
  if (cast !== null)
    return cast.version === 2
      ? new AsciicastReader(name)
      : refuse('version', otherVersion(name, cast.version))
  if (isTimingFile(head)) return refuse('timing-file', isTiming(name))
  if (isBinaryText(decodeText(head).text))
    return refuse('binary', isNoLog(name, 'holds bytes that are no text'))
  // A log whose first line is gone (rotated, or its start cut off) still has its timing file.
  return options.isTimed ? new TypescriptReader(options) : new PlainReader()
}

/**
 * The version of an asciicast at the start of these bytes; null where it is none. Version 1 is one JSON object over the
 * whole file, so only its start is looked at.
 */
function findCast(head: Uint8Array, isAll: boolean): { readonly version: number | null } | 'more' | null {
  if (head[0] !== 0x7b) return null
  const text = toAscii(head.subarray(0, 8192))
  const end = text.indexOf('\n')
  const line = end === -1 ? text : text.slice(0, end)
  try {
    const version = maybeVersion(JSON.parse(line))
    return version === null ? null : { version }
  } catch {
    if (end === -1 && !isAll && head.length < 8192) return 'more'
    const first = /^\{\s*"version"\s*:\s*(\d{1,3})\s*,/.exec(text)
    return first === null || first[1] === '2' ? null : { version: Number(first[1]) }
  }
}

/** Bytes as a terminal got them: what a multiplexer's pipe or a serial console writes. */
class PlainReader implements RecordingReader {
  private isOpen = false

  push(bytes: Uint8Array, arrivedMs: number | null): readonly LogEvent[] {
    const output: LogEvent = { kind: 'output', atMs: arrivedMs, bytes }
    if (this.isOpen) return [output]
    this.isOpen = true
    return [{ kind: 'opened', format: 'plain', columns: null, rows: null, startedMs: null }, output]
  }

  pushTiming(): readonly LogEvent[] {
    return []
  }

  end(): readonly LogEvent[] {
    return []
  }
}

function isEmpty(name: string): string {
  return `“${name}” is empty, so there is nothing to read. Nothing was changed. See whether the recording has been written already, or follow it while it is.`
}

function isNoLog(name: string, what: string): string {
  return `“${name}” ${what}, so it is no log of a terminal. Nothing was read and nothing was changed. Choose the log itself, unpacked where it is compressed.`
}

function isTiming(name: string): string {
  return `“${name}” is a timing file: it says when, but not what. Nothing was read. Choose the recording that belongs to it, and this one as its timing file.`
}
