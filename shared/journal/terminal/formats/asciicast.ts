/**
 * Reads the asciicast format, version 2: one JSON value (RFC 8259) a line, an object as the head and then arrays
 * `[seconds since the start, code, text]`, as its public description has it. Codes: `o` output, `i` what was typed, `r` a
 * new size as `80x24`, `m` a mark. What was typed is left out before it is read.
 */
import { utf8ToBytes } from '@noble/hashes/utils.js'
import { Lines, toAscii } from './bytes.ts'
import { note, refuse, type LogEvent, type RecordingReader } from './events.ts'
import { decodeText } from '../../../intake/decode.ts'
import { maybeSize } from './own-lines.ts'
import { keysLeftOut } from './timed.ts'

/** No longer line is read, in bytes. */
export const longestCastLine = 16 * 1024 * 1024

const typed = /^\s*\[\s*[-+.\deE]+\s*,\s*"i"/

export class AsciicastReader implements RecordingReader {
  private readonly lines = new Lines(longestCastLine)
  private startedMs: number | null = null
  private isOpen = false
  private broken = 0
  private isLastBroken = false
  private isToldOfKeys = false

  constructor(private readonly name: string) {}

  push(bytes: Uint8Array): readonly LogEvent[] {
    return this.readAll(this.lines.push(bytes))
  }

  pushTiming(): readonly LogEvent[] {
    return []
  }

  end(): readonly LogEvent[] {
    const events = [...this.readAll(this.lines.end())]
    const broken = this.broken - (this.isLastBroken ? 1 : 0)
    if (broken + this.lines.dropped > 0) events.push(note(brokenLines(broken + this.lines.dropped)))
    if (this.isLastBroken) events.push(note(cutLine))
    return events
  }

  private readAll(lines: Iterable<Uint8Array>): readonly LogEvent[] {
    const events: LogEvent[] = []
    for (const line of lines) events.push(...this.read(line))
    return events
  }

  private *read(line: Uint8Array): Generator<LogEvent> {
    if (typed.test(toAscii(line.subarray(0, 80)))) {
      if (!this.isToldOfKeys) yield note(keysLeftOut)
      this.isToldOfKeys = true
      return
    }
    const text = decodeText(line).text
    if (text.trim() === '') return
    const value = maybeJson(text)
    const events = this.isOpen ? this.maybeEvents(value) : this.openings(value)
    this.isLastBroken = events === null
    if (events === null) this.broken += 1
    else yield* events
  }

  private openings(value: unknown): readonly LogEvent[] {
    this.isOpen = true
    if (typeof value !== 'object' || value === null || !('version' in value) || value.version !== 2)
      return [refuse('version', otherVersion(this.name, maybeVersion(value)))]
    const { width, height, timestamp } = value as Record<string, unknown>
    this.startedMs = typeof timestamp === 'number' && timestamp > 0 ? Math.round(timestamp * 1000) : null
    const [columns, rows] = [toSize(width), toSize(height)]
    const opened: LogEvent = { kind: 'opened', format: 'asciicast', columns, rows, startedMs: this.startedMs }
    return this.startedMs === null ? [opened, note(noStart)] : [opened]
  }

  private maybeEvents(value: unknown): readonly LogEvent[] | null {
    if (!Array.isArray(value)) return null
    const [seconds, code, text] = value as unknown[]
    if (typeof seconds !== 'number' || typeof code !== 'string' || typeof text !== 'string') return null
    const atMs = this.startedMs === null ? null : Math.round(this.startedMs + seconds * 1000)
    switch (code) {
      case 'o':
        return text === '' ? [] : [{ kind: 'output', atMs, bytes: utf8ToBytes(text) }]
      case 'm':
        return [{ kind: 'mark', atMs, label: text }]
      case 'r':
        return toResize(atMs, text)
      default:
        // The description asks readers to pass over codes that they do not know.
        return []
    }
  }
}

function toResize(atMs: number | null, text: string): readonly LogEvent[] | null {
  const size = /^(\d+)x(\d+)$/.exec(text)
  const [columns, rows] = [maybeSize(size?.[1]), maybeSize(size?.[2])]
  return columns === null || rows === null ? null : [{ kind: 'resize', atMs, columns, rows }]
}

function toSize(value: unknown): number | null {
  return typeof value === 'number' ? maybeSize(String(value)) : null
}

/** The version that a head states; null where it states none. */
export function maybeVersion(value: unknown): number | null {
  if (typeof value !== 'object' || value === null || !('version' in value)) return null
  return typeof value.version === 'number' ? value.version : null
}

function maybeJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

export function otherVersion(name: string, version: number | null): string {
  const is = version === null ? 'in a version that it does not say' : `in version ${version}`
  return `“${name}” is an asciicast recording ${is}, and only version 2 is read here. Nothing was changed. Convert it to version 2 with the program that made it, and choose that file.`
}

const noStart =
  'The recording does not say when it was made, so its commands have no times. Nothing was left out.'
const cutLine =
  'The recording ends in the middle of a line, which was left out. All lines before it were read.'

function brokenLines(count: number): string {
  const were = count === 1 ? 'One line' : `${count} lines`
  return `${were} of the recording could not be read and ${count === 1 ? 'was' : 'were'} left out. All others were read.`
}
