/** Reading logs of terminals, away from the screen: one worker for each log. */
import type { LogMessage, Size } from '../../shared/journal/terminal/driver.ts'

/** To the worker. Bytes are answered with `taken` once they are interpreted, so that whoever gives them can wait. */
export type LogRequest =
  | { readonly kind: 'live'; readonly name: string; readonly isTimed: boolean; readonly size: Size | null }
  | {
      readonly kind: 'finished'
      readonly name: string
      readonly log: Uint8Array
      readonly timing: Uint8Array | null
      readonly size: Size | null
    }
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array; readonly arrivedMs: number | null }
  | { readonly kind: 'timing'; readonly bytes: Uint8Array }
  | { readonly kind: 'size'; readonly size: Size }
  | { readonly kind: 'end' }

export type LogAnswer =
  | LogMessage
  | { readonly kind: 'taken' }
  /** Of a finished log: how much of it is read, 0 to 1. */
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'ended' }
  | { readonly kind: 'broken'; readonly reason: string }

/** A log that is being read. */
export class TerminalReading {
  private readonly worker: Worker
  private waiting: (() => void)[] = []

  /** @param say told everything but `taken`, in order */
  constructor(request: LogRequest & { kind: 'live' | 'finished' }, say: (answer: LogAnswer) => void) {
    this.worker = new Worker(new URL('./terminal.worker.ts', import.meta.url), { type: 'module' })
    this.worker.onmessage = ({ data }: MessageEvent<LogAnswer>) => {
      if (data.kind === 'taken') this.waiting.shift()?.()
      else say(data)
    }
    this.worker.onerror = ({ message }) =>
      say({ kind: 'broken', reason: message || 'the worker could not start' })
    this.worker.postMessage(request)
  }

  /** Resolves once the bytes are interpreted. */
  push(bytes: Uint8Array, arrivedMs: number | null): Promise<void> {
    return this.send({ kind: 'bytes', bytes, arrivedMs })
  }

  pushTiming(bytes: Uint8Array): Promise<void> {
    return this.send({ kind: 'timing', bytes })
  }

  setSize(size: Size): void {
    this.worker.postMessage({ kind: 'size', size } satisfies LogRequest)
  }

  end(): void {
    this.worker.postMessage({ kind: 'end' } satisfies LogRequest)
  }

  stop(): void {
    this.worker.terminate()
    for (const go of this.waiting) go()
    this.waiting = []
  }

  private send(request: LogRequest): Promise<void> {
    this.worker.postMessage(request)
    return new Promise((go) => this.waiting.push(go))
  }
}
