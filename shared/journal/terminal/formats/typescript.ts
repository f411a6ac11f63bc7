/** Reads the log of script(1), alone or with its timing file. */
import { note, refuse, type LogEvent, type RecordingReader } from './events.ts'
import { KeysWatch } from './keys.ts'
import { Sessions, type Measured, type SessionPiece } from './sessions.ts'
import { onlyKeys, Timed } from './timed.ts'
import { countTiming } from './timing.ts'
import { findFit } from './fit.ts'

export interface TypescriptOptions {
  readonly name: string
  readonly isLive: boolean
  /** Whether a timing file belongs to it. */
  readonly isTimed: boolean
  /** Of a finished recording with its timing file: what the log was measured to hold. */
  readonly measured: Measured | null
}

export class TypescriptReader implements RecordingReader {
  private readonly sessions: Sessions
  private timed: Timed | null = null
  private keys: KeysWatch | null = null
  private isOpen = false
  /** So many sessions at the start have no timing file. */
  private untimed = 0
  private session = 0

  constructor(private readonly options: TypescriptOptions) {
    this.sessions = new Sessions(options.isLive)
    if (options.isTimed && options.isLive) this.timed = new Timed(options.name, true, null)
  }

  /** Of a finished recording the whole timing file is given once, before the recording itself. */
  pushTiming(bytes: Uint8Array): readonly LogEvent[] {
    if (this.timed !== null) return [...this.timed.pushTiming(bytes)]
    return this.options.isTimed && !this.options.isLive ? [...this.fit(bytes)] : []
  }

  push(bytes: Uint8Array, arrivedMs: number | null): readonly LogEvent[] {
    const events: LogEvent[] = []
    for (const piece of this.sessions.push(bytes)) events.push(...this.follow(piece, arrivedMs))
    return events
  }

  end(): readonly LogEvent[] {
    const events: LogEvent[] = []
    for (const piece of this.sessions.end()) events.push(...this.follow(piece, null))
    return [...events, ...this.passKeys(null, null), ...(this.timed?.end() ?? [])]
  }

  private *follow(piece: SessionPiece, arrivedMs: number | null): Generator<LogEvent> {
    if (!this.isOpen && piece.kind === 'body') yield* this.open(null, null, null)
    switch (piece.kind) {
      case 'opening':
        yield* this.open(piece.startedMs, piece.columns, piece.rows)
        return
      case 'body':
        yield* this.body(piece.bytes, arrivedMs)
        return
      case 'closing':
        yield* this.passKeys(null, arrivedMs)
        this.keys = null
        this.session += 1
        yield { kind: 'ended', atMs: piece.endedMs, exitCode: piece.exitCode }
    }
  }

  private *open(startedMs: number | null, columns: number | null, rows: number | null): Generator<LogEvent> {
    const isFurther = this.isOpen
    this.isOpen = true
    if (this.session >= this.untimed) yield* this.timed?.open(startedMs, columns, rows, isFurther) ?? []
    yield { kind: 'opened', format: 'typescript', columns, rows, startedMs }
  }

  private *body(bytes: Uint8Array, arrivedMs: number | null): Generator<LogEvent> {
    if (this.timed === null) yield* this.passKeys(bytes, arrivedMs)
    else if (this.session >= this.untimed) yield* this.timed.body(bytes, arrivedMs)
    else if (!this.timed.hasKeys) yield { kind: 'output', atMs: null, bytes }
  }

  /** Where nothing tells keys from output, they are looked for. @param bytes null: the session is over */
  private *passKeys(bytes: Uint8Array | null, arrivedMs: number | null): Generator<LogEvent> {
    if (this.timed !== null) return
    this.keys ??= new KeysWatch()
    const passed = bytes === null ? this.keys.end() : this.keys.push(bytes)
    if (passed === 'keys') yield refuse('keys', keysFound(this.options.name))
    else if (passed.length > 0) yield { kind: 'output', atMs: arrivedMs, bytes: passed }
  }

  /** Sees whether a timing file belongs to this recording, and goes on without it where it does not. */
  private *fit(timing: Uint8Array): Generator<LogEvent> {
    const { name, measured } = this.options
    const counted = countTiming(timing)
    const fit = findFit(counted, name, measured)
    if (fit === 'typed') yield refuse('keys', onlyKeys(name))
    else if (fit === 'untold') yield refuse('keys', keysUntold(name))
    else if (fit === null) yield note(counted.records === 0 ? notTiming : notFitting)
    else {
      this.untimed = fit.from
      this.timed = new Timed(name, false, fit.layout)
      yield* this.timed.pushTiming(timing)
      if (fit.from > 0) yield note(fit.layout === 'both' ? onlyLastRead : onlyLastTimed)
      if (counted.unknown > 0) yield note(unknownLines(counted.unknown))
    }
  }
}

const notFitting =
  'The timing file does not fit this recording: it counts other bytes than there are. The recording was read without its times. Choose the timing file that was made with it to have them.'
const notTiming =
  "The file chosen as the timing file is none of script's. The recording was read without its times. Choose the timing file that was made with it to have them."

const onlyLastTimed =
  'Several sessions were written into this log, one behind the other, and the timing file is of the last one only. The ones before were read without times.'
const onlyLastRead =
  'Several sessions were written into this log, one behind the other, with the keys that were pressed, and the timing file is of the last one only. The ones before were left out, since nothing tells their keys from what was shown.'

function unknownLines(count: number): string {
  return `${count === 1 ? 'One line' : `${count} lines`} of the timing file could not be read and ${count === 1 ? 'was' : 'were'} passed over, so times may be a little off. The recording itself was read.`
}

function keysFound(name: string): string {
  return `“${name}” holds the keys that were pressed, so nothing of it is kept: passwords may be among them. If it was made with script's --log-io, choose its timing file together with it, and the keys are left out. Otherwise choose the log of the output alone.`
}

function keysUntold(name: string): string {
  return `“${name}” also holds the keys that were pressed, and its timing file does not fit, so they cannot be told from what was shown. Nothing of it was read. Choose the timing file that was made with it.`
}
