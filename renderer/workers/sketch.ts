/**
 * Diagrams drawn away from the screen: asked for by their text, drawn one after the other, ended when they take too long,
 * and kept for when they come into view again.
 */
import type { SketchResult } from '../../shared/sketch/drawn.ts'
import { broken, tooSlow } from '../../shared/sketch/reason.ts'
import { toSafeDrawing } from '../../shared/sketch/safe.ts'

export interface SketchRequest {
  readonly number: number
  readonly text: string
}

export type SketchMessage =
  | { readonly kind: 'drawn'; readonly number: number; readonly result: SketchResult }
  | { readonly kind: 'broken'; readonly number: number; readonly reason: string }

/** A drawing under way. `stop` says that it is no longer waited for; the answer then may never come. */
export interface SketchWork {
  readonly answer: Promise<SketchResult>
  stop(): void
}

/** The part of a Worker that is used here. */
export interface Apart {
  onmessage: ((event: MessageEvent<SketchMessage>) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
  postMessage(message: SketchRequest): void
  terminate(): void
}

export interface SketchTimes {
  /** A drawing is ended after so long; the first one may take longer, since the library is loaded for it. */
  readonly patienceMs: number
  readonly firstPatienceMs: number
  /** After so long without work the worker goes, and the memory that it holds. */
  readonly idleMs: number
}

const usualTimes: SketchTimes = { patienceMs: 8000, firstPatienceMs: 20_000, idleMs: 120_000 }

/** As many drawings are kept, the ones last asked for. */
const KEPT = 150

interface Asked {
  readonly number: number
  readonly text: string
  readonly answer: Promise<SketchResult>
  readonly settle: (result: SketchResult) => void
  waiting: number
}

export class SketchDrawer {
  private readonly kept = new Map<string, SketchResult>()
  private readonly asked = new Map<string, Asked>()
  private current: Asked | null = null
  private worker: Apart | null = null
  private hasDrawn = false
  private timer: ReturnType<typeof setTimeout> | undefined
  private count = 0

  constructor(
    private readonly start: () => Apart,
    private readonly times: SketchTimes = usualTimes,
  ) {}

  /** What is known of a text without drawing it. */
  find(text: string): SketchResult | undefined {
    const result = this.kept.get(text)
    if (result) {
      this.kept.delete(text)
      this.kept.set(text, result)
    }
    return result
  }

  /** Draws a text unless that is done or under way already. */
  draw(text: string): SketchWork {
    const result = this.find(text)
    if (result) return { answer: Promise.resolve(result), stop: () => undefined }
    const asked = this.asked.get(text) ?? this.ask(text)
    asked.waiting += 1
    let isOver = false
    return {
      answer: asked.answer,
      stop: () => {
        if (!isOver) asked.waiting -= 1
        isOver = true
      },
    }
  }

  private ask(text: string): Asked {
    let settle: (result: SketchResult) => void = () => undefined
    const answer = new Promise<SketchResult>((resolve) => (settle = resolve))
    const asked: Asked = { number: (this.count += 1), text, answer, settle, waiting: 0 }
    this.asked.set(text, asked)
    // Not at once: whoever asks may no longer want it when its turn comes.
    queueMicrotask(() => this.goOn())
    return asked
  }

  private goOn(): void {
    if (this.current) return
    for (const asked of this.asked.values()) {
      if (asked.waiting > 0) return this.begin(asked)
      this.asked.delete(asked.text)
    }
    clearTimeout(this.timer)
    this.timer = setTimeout(() => this.rest(), this.times.idleMs)
  }

  private begin(asked: Asked): void {
    this.current = asked
    this.worker ??= this.open()
    clearTimeout(this.timer)
    const { patienceMs, firstPatienceMs } = this.times
    this.timer = setTimeout(() => this.giveUp(tooSlow), this.hasDrawn ? patienceMs : firstPatienceMs)
    this.worker.postMessage({ number: asked.number, text: asked.text })
  }

  private open(): Apart {
    const worker = this.start()
    worker.onmessage = ({ data }) => {
      if (data.number !== this.current?.number) return
      this.hasDrawn = true
      if (data.kind === 'drawn') return this.finish(toChecked(data.result))
      console.error(data.reason)
      this.finish(broken)
    }
    worker.onerror = ({ message }) => {
      console.error(message || 'the worker that draws diagrams could not start')
      this.giveUp(broken)
    }
    return worker
  }

  /** Ends the worker, and with it what it is at; the next drawing gets a fresh one. */
  private giveUp(result: SketchResult): void {
    this.rest()
    if (this.current) this.finish(result)
  }

  private rest(): void {
    this.worker?.terminate()
    this.worker = null
    this.hasDrawn = false
  }

  private finish(result: SketchResult): void {
    const { current } = this
    this.current = null
    if (current) {
      this.asked.delete(current.text)
      this.keep(current.text, result)
      current.settle(result)
    }
    this.goOn()
  }

  private keep(text: string, result: SketchResult): void {
    // What went wrong in the program may go right the next time.
    if (!result.ok && result.code === 'broken') return
    this.kept.set(text, result)
    const oldest = this.kept.keys().next()
    if (this.kept.size > KEPT && !oldest.done) this.kept.delete(oldest.value)
  }
}

/** The worker runs a large library, so what comes from it is held to the list of what may be shown once more. */
function toChecked(result: SketchResult): SketchResult {
  if (!result.ok) return result
  const svg = toSafeDrawing(result.svg)
  return svg ? { ...result, svg } : broken
}

/** The page's own; the library is loaded by its worker when the first diagram comes into view. */
export const sketches = new SketchDrawer(
  () => new Worker(new URL('./sketch.worker.ts', import.meta.url), { type: 'module' }),
)
