/**
 * Suggested tags, from the screen's side. What was learnt of a lab's tags lives in one worker, from the first question
 * until the lab is closed; nothing of it is stored.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { LabId } from '../../shared/lab/ids.ts'
import type { TaggedNode } from '../../shared/lab/model.ts'

/** Every question, with its argument and its answer. */
export interface TagCalls {
  /** Names the lab; asked once, before all others. */
  readonly open: { readonly argument: LabId; readonly answer: null }
  readonly suggest: { readonly argument: TaggedNode; readonly answer: SuggestedTags }
}
export type TagCall = keyof TagCalls

export interface SuggestedTags {
  /** At most seven, own tags before phrases, each kind best first. */
  readonly tags: readonly SuggestedTag[]
  /** The person's tags are still being learnt, so these come of the text alone. Ask again once that is done. */
  readonly isEarly: boolean
}

export interface SuggestedTag {
  readonly tag: string
  /** How likely it was held to be accepted, 0 to 1. */
  readonly chance: number
  readonly why: SuggestedWhy
}

/** Why: its name stands in the text, a thing that is near has it, many have it, or it is a phrase that is no tag yet. */
export type SuggestedWhy =
  | { readonly kind: 'named' }
  | { readonly kind: 'near'; readonly node: TaggedNode; readonly name: string }
  | { readonly kind: 'often' }
  | { readonly kind: 'phrase' }

export type TagRequest = {
  readonly [C in TagCall]: {
    readonly call: C
    readonly number: number
    readonly argument: TagCalls[C]['argument']
  }
}[TagCall]

/** What the worker says: an answer, that it broke, or how far it is with learning (0 to 1; null when it is done). */
export type TagMessage =
  | { readonly kind: 'answer'; readonly number: number; readonly answer: TagCalls[TagCall]['answer'] }
  | { readonly kind: 'broken'; readonly number: number; readonly reason: string }
  | { readonly kind: 'learning'; readonly share: number | null }

/** The part of a worker that is needed here. */
export interface TagWorker {
  onmessage: ((event: { readonly data: TagMessage }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
  postMessage(request: TagRequest): void
  terminate(): void
}

export interface LearningState {
  /** 0 to 1 while the lab's tags are being learnt; null otherwise. */
  readonly share: number | null
  /** Counts up whenever learning was done. */
  readonly times: number
}

interface Waiting {
  readonly resolve: (answer: never) => void
  readonly reject: (error: Error) => void
}

const startWorker = (): TagWorker =>
  new Worker(new URL('./tags.worker.ts', import.meta.url), { type: 'module' }) as unknown as TagWorker

/** The worker of one open lab, begun with the first question. */
export class TagAsker {
  readonly learning: StoreApi<LearningState> = createStore(() => ({ share: null, times: 0 }))
  private worker: TagWorker | null = null
  private readonly waiting = new Map<number, Waiting>()
  private number = 0

  constructor(
    private readonly lab: LabId,
    private readonly start: () => TagWorker = startWorker,
  ) {}

  /**
   * The tags that suit a thing as it stands now.
   * @throws Error where the worker broke; the next question begins a new one
   */
  suggest(node: TaggedNode): Promise<SuggestedTags> {
    return this.ask('suggest', node)
  }

  /** Ends the worker. Questions that were not answered stay so. */
  close(): void {
    this.worker?.terminate()
    this.worker = null
    this.waiting.clear()
  }

  private ask<C extends TagCall>(call: C, argument: TagCalls[C]['argument']): Promise<TagCalls[C]['answer']> {
    const worker = this.ensureWorker()
    return new Promise((resolve, reject) => this.post(worker, call, argument, { resolve, reject }))
  }

  private post<C extends TagCall>(
    worker: TagWorker,
    call: C,
    argument: TagCalls[C]['argument'],
    waiting: Waiting,
  ): void {
    const number = ++this.number
    this.waiting.set(number, waiting)
    worker.postMessage({ call, number, argument } as TagRequest)
  }

  private ensureWorker(): TagWorker {
    if (this.worker) return this.worker
    const worker = this.start()
    worker.onmessage = ({ data }) => this.take(data)
    worker.onerror = ({ message }) => this.giveUp(message || 'the worker could not start')
    this.worker = worker
    const ignore = (): void => undefined
    this.post(worker, 'open', this.lab, { resolve: ignore, reject: ignore })
    return worker
  }

  private take(message: TagMessage): void {
    if (message.kind === 'learning') {
      const { times } = this.learning.getState()
      this.learning.setState({ share: message.share, times: message.share === null ? times + 1 : times })
      return
    }
    if (message.kind === 'broken') return this.giveUp(message.reason)
    this.waiting.get(message.number)?.resolve(message.answer as never)
    this.waiting.delete(message.number)
  }

  private giveUp(reason: string): void {
    const waiting = [...this.waiting.values()]
    this.close()
    this.learning.setState(({ times }) => ({ share: null, times }))
    for (const { reject } of waiting) reject(new Error(reason))
  }
}
