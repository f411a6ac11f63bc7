/** Asking for the spelling of words: a worker with the dictionaries, begun with the first question and read then. */
import type { LabId } from '../../shared/lab/ids.ts'

/** The name under which the lab keeps the words that were added to it. */
export const LAB_WORDS = 'spelling words'

/** A word that no dictionary has, with at most five that may have been meant, the nearest first. */
export interface Misspelt {
  readonly word: string
  readonly suggestions: readonly string[]
}

export interface SpellingRequest {
  readonly number: number
  readonly lab: LabId
  readonly words: readonly string[]
}

export type SpellingAnswer =
  | { readonly kind: 'answer'; readonly number: number; readonly misspelt: readonly Misspelt[] }
  | { readonly kind: 'broken'; readonly number: number; readonly reason: string }

interface Waiting {
  readonly resolve: (misspelt: readonly Misspelt[]) => void
  readonly reject: (error: Error) => void
}

/** One for each window. */
export class SpellingAsker {
  private worker: Worker | null = null
  private readonly waiting = new Map<number, Waiting>()
  private number = 0

  constructor(
    private readonly start: () => Worker = () =>
      new Worker(new URL('./spelling.worker.ts', import.meta.url), { type: 'module' }),
  ) {}

  /**
   * Which of these words are in no dictionary and are none of the trade or of the lab.
   * @throws Error where the worker broke; the next question begins a new one
   */
  misspeltAmong(lab: LabId, words: readonly string[]): Promise<readonly Misspelt[]> {
    const number = ++this.number
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject })
      this.ensureWorker().postMessage({ number, lab, words } satisfies SpellingRequest)
    })
  }

  /** Ends the worker, which holds tens of megabytes. Questions that were not answered stay so. */
  close(): void {
    this.worker?.terminate()
    this.worker = null
    this.waiting.clear()
  }

  private ensureWorker(): Worker {
    if (this.worker) return this.worker
    const worker = this.start()
    worker.onmessage = ({ data }: MessageEvent<SpellingAnswer>) => {
      if (data.kind === 'answer') this.waiting.get(data.number)?.resolve(data.misspelt)
      else this.waiting.get(data.number)?.reject(new Error(data.reason))
      this.waiting.delete(data.number)
    }
    worker.onerror = ({ message }) => this.giveUp(message || 'the worker could not start')
    this.worker = worker
    return worker
  }

  private giveUp(reason: string): void {
    const waiting = [...this.waiting.values()]
    this.close()
    for (const { reject } of waiting) reject(new Error(reason))
  }
}
