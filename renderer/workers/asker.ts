/**
 * The screen's side of a worker that holds what was learnt of one open lab: numbered questions, their answers, and how far the
 * worker is with what it does by itself.
 */
import type { LabId } from '../../shared/lab/ids.ts'

/** Every question by its name, with its argument and its answer. */
export type Calls<C> = {
  readonly [Name in keyof C]: { readonly argument: unknown; readonly answer: unknown }
}

/** Names the lab; asked once, before all others. */
export interface OpenCall {
  readonly open: { readonly argument: LabId; readonly answer: null }
}

export type RequestOf<C extends Calls<C>> = {
  readonly [Name in keyof C]: {
    readonly call: Name
    readonly number: number
    readonly argument: C[Name]['argument']
  }
}[keyof C]

/** What the worker says: an answer, that it broke, or how far it is (0 to 1; null when it is done). */
export type MessageOf<C extends Calls<C>> =
  | { readonly kind: 'answer'; readonly number: number; readonly answer: C[keyof C]['answer'] }
  | { readonly kind: 'broken'; readonly number: number; readonly reason: string }
  | { readonly kind: 'progress'; readonly share: number | null }

/** The part of a worker that is needed here. */
export interface WorkerOf<C extends Calls<C>> {
  onmessage: ((event: { readonly data: MessageOf<C> }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
  postMessage(request: RequestOf<C>): void
  terminate(): void
}

interface Waiting {
  readonly resolve: (answer: never) => void
  readonly reject: (error: Error) => void
}

/** The worker of one open lab, begun with the first question. */
export abstract class Asker<C extends OpenCall & Calls<C>> {
  private worker: WorkerOf<C> | null = null
  private readonly waiting = new Map<number, Waiting>()
  private number = 0

  protected constructor(
    private readonly lab: LabId,
    private readonly start: () => WorkerOf<C>,
  ) {}

  /** Ends the worker. Questions that were not answered stay so. */
  close(): void {
    this.worker?.terminate()
    this.worker = null
    this.waiting.clear()
  }

  /** Told how far the worker is, 0 to 1; null when it is done. */
  protected abstract onShare(share: number | null): void

  /** The worker broke or ended before it was done. */
  protected abstract onBroken(): void

  /** @throws Error where the worker broke; the next question begins a new one */
  protected askWorker<Name extends keyof C>(
    call: Name,
    argument: C[Name]['argument'],
  ): Promise<C[Name]['answer']> {
    const worker = this.ensureWorker()
    return new Promise((resolve, reject) => this.post(worker, call, argument, { resolve, reject }))
  }

  protected ensureWorker(): WorkerOf<C> {
    if (this.worker) return this.worker
    const worker = this.start()
    worker.onmessage = ({ data }) => this.take(data)
    worker.onerror = ({ message }) => this.giveUp(message || 'the worker could not start')
    this.worker = worker
    const ignore = (): void => undefined
    this.post(worker, 'open', this.lab, { resolve: ignore, reject: ignore })
    return worker
  }

  private post<Name extends keyof C>(
    worker: WorkerOf<C>,
    call: Name,
    argument: C[Name]['argument'],
    waiting: Waiting,
  ): void {
    const number = ++this.number
    this.waiting.set(number, waiting)
    worker.postMessage({ call, number, argument })
  }

  private take(message: MessageOf<C>): void {
    if (message.kind === 'progress') return this.onShare(message.share)
    if (message.kind === 'broken') return this.giveUp(message.reason)
    this.waiting.get(message.number)?.resolve(message.answer as never)
    this.waiting.delete(message.number)
  }

  private giveUp(reason: string): void {
    const waiting = [...this.waiting.values()]
    this.close()
    this.onBroken()
    for (const { reject } of waiting) reject(new Error(reason))
  }
}
