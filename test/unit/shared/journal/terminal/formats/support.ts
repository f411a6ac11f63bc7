import type { LogEvent } from '../../../../../../shared/journal/terminal/formats/events.ts'
import { createRecordingReader } from '../../../../../../shared/journal/terminal/formats/recording.ts'
import { Measuring } from '../../../../../../shared/journal/terminal/formats/sessions.ts'

export const toBytes = (text: string): Uint8Array => new TextEncoder().encode(text)

export interface Reading {
  readonly name?: string
  readonly timing?: string | Uint8Array
  /** Where the bytes are cut. */
  readonly cuts?: readonly number[]
  /** Read as it is written, each piece arriving a second after the one before. */
  readonly isLive?: boolean
}

/** Cuts bytes at places, which are taken round the length. */
export function cut(bytes: Uint8Array, cuts: readonly number[]): Uint8Array[] {
  const at = [...new Set(cuts.map((place) => place % (bytes.length + 1)))].sort((a, b) => a - b)
  return [0, ...at].map((from, i) => bytes.subarray(from, at[i] ?? bytes.length))
}

/** Reads a recording in pieces. */
export function read(log: string | Uint8Array, reading: Reading = {}): LogEvent[] {
  const bytes = typeof log === 'string' ? toBytes(log) : log
  const timing = typeof reading.timing === 'string' ? toBytes(reading.timing) : reading.timing
  const isLive = reading.isLive ?? false
  const pieces = cut(bytes, reading.cuts ?? [])
  const measuring = new Measuring()
  for (const piece of pieces) measuring.push(piece)
  const reader = createRecordingReader({
    name: reading.name ?? 'logger.log',
    isLive,
    isTimed: timing !== undefined,
    measured: timing !== undefined && !isLive ? measuring.end() : null,
  })
  const events: LogEvent[] = []
  if (timing) events.push(...reader.pushTiming(timing))
  for (const [i, piece] of pieces.entries())
    events.push(...reader.push(piece, isLive ? 1_000_000 + i * 1000 : null))
  events.push(...reader.end())
  return events
}

/** The output of all events, byte for byte as Latin-1. */
export function outputOf(events: readonly LogEvent[]): string {
  return events
    .filter((event) => event.kind === 'output')
    .map((event) => Buffer.from(event.bytes).toString('latin1'))
    .join('')
}

/** Events with neighbouring outputs of one time joined, so that two readings can be compared. */
export function joined(events: readonly LogEvent[]): unknown[] {
  const all: unknown[] = []
  let last: { atMs: number | null; text: string } | null = null
  for (const event of events) {
    if (event.kind !== 'output') {
      all.push(event)
      last = null
      continue
    }
    const text = Buffer.from(event.bytes).toString('latin1')
    if (last !== null && last.atMs === event.atMs) last.text += text
    else all.push((last = { atMs: event.atMs, text }))
  }
  return all
}

export const notesOf = (events: readonly LogEvent[]): string[] =>
  events.filter((event) => event.kind === 'note').map((event) => event.sentence)

export const refusalOf = (events: readonly LogEvent[]): string | undefined =>
  events.filter((event) => event.kind === 'refused').map((event) => `${event.code}: ${event.sentence}`)[0]
