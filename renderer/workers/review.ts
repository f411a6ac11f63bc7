/** Asking for the review of a procedure: a worker that keeps what it read of the parts, begun with the first question. */
import type { Finding, ReviewedDocument } from '../../shared/procedure/review/types.ts'

export interface ReviewRequest {
  readonly number: number
  readonly document: ReviewedDocument
}

export type ReviewAnswer =
  | { readonly kind: 'answer'; readonly number: number; readonly findings: readonly Finding[] }
  | { readonly kind: 'broken'; readonly number: number; readonly reason: string }

/** The part of a worker that is needed here. */
export interface ReviewWorker {
  onmessage: ((event: { readonly data: ReviewAnswer }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
  postMessage(request: ReviewRequest): void
  terminate(): void
}

interface Waiting {
  readonly resolve: (findings: readonly Finding[]) => void
  readonly reject: (error: Error) => void
}

const startWorker = (): ReviewWorker =>
  new Worker(new URL('./review.worker.ts', import.meta.url), { type: 'module' }) as unknown as ReviewWorker

/** One for each window. */
export class ReviewAsker {
  private worker: ReviewWorker | null = null
  private readonly waiting = new Map<number, Waiting>()
  private number = 0

  constructor(private readonly start: () => ReviewWorker = startWorker) {}

  /**
   * What the rules find, in the order of `reviewProcedure`.
   * @throws Error where the worker broke; the next question begins a new one
   */
  review(document: ReviewedDocument): Promise<readonly Finding[]> {
    const number = ++this.number
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject })
      this.ensureWorker().postMessage({ number, document })
    })
  }

  /** Ends the worker, and with it all that it read. Questions that were not answered stay so. */
  close(): void {
    this.worker?.terminate()
    this.worker = null
    this.waiting.clear()
  }

  private ensureWorker(): ReviewWorker {
    if (this.worker) return this.worker
    const worker = this.start()
    worker.onmessage = ({ data }) => {
      if (data.kind === 'answer') this.waiting.get(data.number)?.resolve(data.findings)
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
