/** Puts a timing file's records over the bytes of its log. */
import { note, refuse, type LogEvent } from './events.ts'
import { maybeMoment, maybeSize } from './own-lines.ts'
import {
  layoutByNames,
  TimingLines,
  withName,
  type Layout,
  type NamedLogs,
  type TimingRecord,
} from './timing.ts'

interface Current {
  readonly kind: 'output' | 'input'
  /** Seconds since the record before. */
  readonly after: number
  left: number
}

interface Held {
  readonly bytes: Uint8Array
  readonly arrivedMs: number | null
}

/** So many bytes wait for their timing where keys may be among them; a timing file that is behind further does not fit. */
const mostHeld = 4 * 1024 * 1024

export class Timed {
  private readonly lines = new TimingLines()
  private records: Generator<TimingRecord>[] = []
  private names: NamedLogs = { output: null, input: null }
  private size: { columns: number | null; rows: number | null } = { columns: null, rows: null }
  private baseMs: number | null = null
  private isOpen = false
  private openedMs: number | null = null
  /** The timing file itself says when its sessions start. */
  private hasStarts = false
  private elapsed = 0
  private current: Current | null = null
  private held: Held[] = []
  private heldBytes = 0
  /** Bytes that were shown before their record came. */
  private early = 0
  private uncovered = 0
  private isToldOfKeys = false

  /** @param layout null where it is told by the records themselves */
  constructor(
    private readonly logName: string,
    private readonly isLive: boolean,
    private layout: Layout | null,
  ) {}

  /** What was typed lies between the output. */
  get hasKeys(): boolean {
    return this.layout === 'both'
  }

  /** A session begins, at this time by its own first line. @param isFurther it was appended to another one */
  *open(
    startedMs: number | null,
    columns: number | null,
    rows: number | null,
    isFurther: boolean,
  ): Generator<LogEvent> {
    if (this.isLive && isFurther) yield refuse('keys', appended(this.logName))
    this.isOpen = true
    this.openedMs = startedMs
    this.size = { columns, rows }
    if (this.hasStarts) return
    this.baseMs = startedMs
    // The next session's first record may have been looked at already.
    this.elapsed = this.current?.after ?? 0
  }

  *pushTiming(bytes: Uint8Array): Generator<LogEvent> {
    this.records.push(this.lines.push(bytes))
    yield* this.releaseHeld()
    if (this.isOpen && this.held.length === 0) yield* this.advance()
  }

  *body(bytes: Uint8Array, arrivedMs: number | null): Generator<LogEvent> {
    if (this.held.length > 0) yield* this.hold(bytes, arrivedMs)
    else yield* this.cover(bytes, arrivedMs)
  }

  *end(): Generator<LogEvent> {
    this.records.push(this.lines.end())
    yield* this.releaseHeld()
    yield* this.advance()
    const isShort = this.current !== null
    if (this.heldBytes + this.uncovered > 0)
      yield note(this.layout === 'output' ? endOfTimes : leftOutAtEnd(this.heldBytes + this.uncovered))
    if (isShort && !this.isLive) yield note(cutRecording)
  }

  private *releaseHeld(): Generator<LogEvent> {
    const { held } = this
    this.held = []
    this.heldBytes = 0
    for (const { bytes, arrivedMs } of held) yield* this.body(bytes, arrivedMs)
  }

  private *hold(bytes: Uint8Array, arrivedMs: number | null): Generator<LogEvent> {
    this.held.push({ bytes, arrivedMs })
    this.heldBytes += bytes.length
    if (this.heldBytes > mostHeld) yield refuse('keys', timingFarBehind(this.logName))
  }

  private *cover(bytes: Uint8Array, arrivedMs: number | null): Generator<LogEvent> {
    let rest = bytes
    while (rest.length > 0) {
      yield* this.advance()
      const { current } = this
      if (current === null) {
        yield* this.withoutRecord(rest, arrivedMs)
        return
      }
      const part = rest.subarray(0, current.left)
      rest = rest.subarray(part.length)
      current.left -= part.length
      if (current.kind === 'output') yield { kind: 'output', atMs: this.now() ?? arrivedMs, bytes: part }
      else yield* this.leaveOut()
    }
    yield* this.advance()
  }

  private *withoutRecord(bytes: Uint8Array, arrivedMs: number | null): Generator<LogEvent> {
    if (this.isLive && this.layout !== 'output') {
      yield* this.hold(bytes, arrivedMs)
      return
    }
    if (this.isLive) this.early += bytes.length
    else this.uncovered += bytes.length
    // What was typed could be among them, and nothing tells any more.
    if (this.layout === 'output') yield { kind: 'output', atMs: arrivedMs, bytes }
  }

  /** Goes on to the next record that counts bytes of this log, and says what the records before it say. */
  private *advance(): Generator<LogEvent> {
    while (this.current === null || this.current.left === 0) {
      const record = this.maybeNext()
      this.current = null
      if (record === null) return
      this.elapsed += record.after
      yield* this.follow(record)
    }
  }

  private *follow(record: TimingRecord): Generator<LogEvent> {
    switch (record.kind) {
      case 'head':
        yield* this.followHead(record.name, record.value)
        return
      case 'resize':
        this.size = record
        yield { kind: 'resize', atMs: this.now(), columns: record.columns, rows: record.rows }
        return
      case 'pause':
        return
      case 'output':
      case 'input':
        yield* this.followBytes(record.kind, record.bytes, record.after)
    }
  }

  private *followBytes(kind: 'output' | 'input', bytes: number, after: number): Generator<LogEvent> {
    this.layout ??= layoutByNames(this.names, this.logName) ?? (this.lines.isClassic ? 'output' : 'both')
    if (this.layout === 'typed') yield refuse('keys', onlyKeys(this.logName))
    if (kind === 'input' && this.layout === 'output') return
    const wasEarly = Math.min(this.early, bytes)
    this.early -= wasEarly
    this.current = { kind, after, left: bytes - wasEarly }
  }

  private *followHead(name: string, value: string): Generator<LogEvent> {
    if (name === 'START_TIME') {
      this.hasStarts = true
      const startMs = maybeMoment(value)
      // Both are written within a moment, in whole seconds.
      if (this.isLive && startMs !== null && Math.abs(startMs - (this.openedMs ?? startMs)) > 2000)
        yield refuse('keys', appended(this.logName))
      this.baseMs = startMs ?? this.baseMs
      this.elapsed = 0
    }
    this.names = withName(this.names, name, value)
    const { columns, rows } = this.size
    if (name === 'COLUMNS' && columns === null) this.size = { columns: maybeSize(value), rows }
    if (name === 'LINES' && rows === null) {
      this.size = { columns, rows: maybeSize(value) }
      if (this.size.columns !== null && this.size.rows !== null)
        yield { kind: 'resize', atMs: this.now(), columns: this.size.columns, rows: this.size.rows }
    }
  }

  private *leaveOut(): Generator<LogEvent> {
    if (this.isToldOfKeys) return
    this.isToldOfKeys = true
    yield note(keysLeftOut)
  }

  private maybeNext(): TimingRecord | null {
    while (this.records.length > 0) {
      const next = this.records[0]!.next()
      if (next.done !== true) return next.value
      this.records.shift()
    }
    return null
  }

  private now(): number | null {
    return this.baseMs === null ? null : Math.round(this.baseMs + this.elapsed * 1000)
  }
}

export const keysLeftOut =
  'This recording also holds the keys that were pressed. They were left out and are kept nowhere here, since passwords may be among them. The file itself still has them.'
const endOfTimes =
  'The timing file ends before the recording does, so what comes at its end has no times. Nothing was left out.'
const cutRecording =
  'The recording is shorter than its timing file says, so its end is missing. What is there was read with its times.'

function leftOutAtEnd(bytes: number): string {
  return `The last ${bytes} bytes of this recording were left out: the timing file does not say whether they were typed or shown. What comes before was read.`
}

export function onlyKeys(name: string): string {
  return `“${name}” holds the keys that were pressed and not what the terminal showed, so it was not read, and nothing of it was kept. Choose the file with the output (script's --log-out) instead.`
}

function appended(name: string): string {
  return `Several sessions are written into “${name}”, one behind the other, and its timing file is of one of them only, so keys cannot be told from what was shown. Nothing more is read from it. Follow it without its timing file, or let script write a new log.`
}

function timingFarBehind(name: string): string {
  return `The timing file of “${name}” is far behind, so what was typed cannot be told from what was shown. Nothing more is read from it, and what waits was dropped. Choose the timing file again, or make the log without the keys (script -f).`
}
