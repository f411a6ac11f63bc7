/**
 * Suggested tags, from the screen's side. What was learnt of a lab's tags lives in one worker, from the first question
 * until the lab is closed; nothing of it is stored.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { LabId } from '../../shared/lab/ids.ts'
import type { TaggedNode } from '../../shared/lab/model.ts'
import { Asker, type MessageOf, type OpenCall, type RequestOf, type WorkerOf } from './asker.ts'

export interface TagCalls extends OpenCall {
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

export type TagRequest = RequestOf<TagCalls>
export type TagMessage = MessageOf<TagCalls>
export type TagWorker = WorkerOf<TagCalls>

export interface LearningState {
  /** 0 to 1 while the lab's tags are being learnt; null otherwise. */
  readonly share: number | null
  /** Counts up whenever learning was done. */
  readonly times: number
}

const startWorker = (): TagWorker =>
  new Worker(new URL('./tags.worker.ts', import.meta.url), { type: 'module' }) as unknown as TagWorker

/** The worker of one open lab, begun with the first question. */
export class TagAsker extends Asker<TagCalls> {
  readonly learning: StoreApi<LearningState> = createStore(() => ({ share: null, times: 0 }))

  constructor(lab: LabId, start: () => TagWorker = startWorker) {
    super(lab, start)
  }

  /**
   * The tags that suit a thing as it stands now.
   * @throws Error where the worker broke; the next question begins a new one
   */
  suggest(node: TaggedNode): Promise<SuggestedTags> {
    return this.askWorker('suggest', node)
  }

  protected override onShare(share: number | null): void {
    const { times } = this.learning.getState()
    this.learning.setState({ share, times: share === null ? times + 1 : times })
  }

  protected override onBroken(): void {
    this.learning.setState(({ times }) => ({ share: null, times }))
  }
}
