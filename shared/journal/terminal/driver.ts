/**
 * From a recording's bytes to found commands: the format's reader before, the screen behind. Where nothing says how wide
 * the window was, nothing is interpreted until the person has said it.
 */
import type { FoundCommand } from './found.ts'
import type { LogEvent, RecordingReader } from './formats/events.ts'
import { createRecordingReader, type RecordingOptions } from './formats/recording.ts'
import { LogReader, type RunningCommand } from './reader.ts'

export type LogMessage =
  | { readonly kind: 'found'; readonly found: FoundCommand }
  | { readonly kind: 'running'; readonly running: RunningCommand | null }
  /** Something was left out or could not be read; goes on. */
  | { readonly kind: 'note'; readonly sentence: string }
  /** The width is not known: say `setSize`. Nothing is lost meanwhile. */
  | { readonly kind: 'asks size' }
  | { readonly kind: 'refused'; readonly sentence: string }

export interface Size {
  readonly columns: number
  readonly rows: number
}

/** What stands in for the height where none is said; it matters only to full-screen programs. */
const USUAL_ROWS = 24

export class LogDriver {
  private readonly recording: RecordingReader
  private reader: LogReader | null = null
  private waiting: LogEvent[] = []
  private isAsking = false
  private isOver = false

  /**
   * @param size of the window where the person has said it; what the recording says goes before
   * @param say told what is found, in order
   */
  constructor(
    options: RecordingOptions,
    private size: Size | null,
    private readonly say: (message: LogMessage) => void,
  ) {
    this.recording = createRecordingReader(options)
  }

  /** @param arrivedMs when the bytes were seen to arrive; null where they stood there before */
  async push(bytes: Uint8Array, arrivedMs: number | null): Promise<void> {
    await this.take(this.recording.push(bytes, arrivedMs))
    this.sayRunning()
  }

  async pushTiming(bytes: Uint8Array): Promise<void> {
    await this.take(this.recording.pushTiming(bytes))
  }

  /** The person says how wide the window was, in columns. */
  async setSize(size: Size): Promise<void> {
    this.size = size
    if (!this.isAsking) return
    this.isAsking = false
    const { waiting } = this
    this.waiting = []
    await this.take(waiting)
    if (this.isOver) this.finish()
    else this.sayRunning()
  }

  /** Nothing more comes. */
  async end(): Promise<void> {
    await this.take(this.recording.end())
    this.isOver = true
    if (!this.isAsking) this.finish()
  }

  private finish(): void {
    this.reader?.end()
    this.reader = null
    this.say({ kind: 'running', running: null })
  }

  private async take(events: readonly LogEvent[]): Promise<void> {
    for (const event of events) {
      if (this.isAsking && event.kind !== 'refused' && event.kind !== 'note') this.waiting.push(event)
      else await this.takeOne(event)
    }
  }

  private async takeOne(event: LogEvent): Promise<void> {
    switch (event.kind) {
      case 'opened':
        return this.open(event)
      case 'output':
        return this.reader?.push(event.bytes, event.atMs)
      case 'resize':
        return this.reader?.resize(event.columns, event.rows)
      case 'ended':
        this.reader?.end()
        this.reader = null
        return
      case 'note':
      case 'refused':
        return this.say(event)
      case 'mark':
        return
    }
  }

  private open(event: LogEvent & { readonly kind: 'opened' }): void {
    const columns = event.columns ?? this.size?.columns
    if (columns === undefined) {
      this.isAsking = true
      this.waiting.push(event)
      return this.say({ kind: 'asks size' })
    }
    this.reader?.end()
    this.reader = new LogReader({
      columns,
      rows: event.rows ?? this.size?.rows ?? USUAL_ROWS,
      onFound: (found) => this.say({ kind: 'found', found }),
    })
  }

  private sayRunning(): void {
    if (this.reader) this.say({ kind: 'running', running: this.reader.findRunning() })
  }
}
