/** Heavy parts of reading, away from the screen: comparing two texts, and making of an original what can be looked at. */
import type { Difference } from '../../shared/sources/difference.ts'
import type { Original } from '../../shared/sources/original.ts'

export type ReadingTask =
  | { readonly kind: 'difference'; readonly older: string; readonly newer: string }
  | {
      readonly kind: 'original'
      readonly bytes: Uint8Array
      readonly mediaType: string
      /** Of the styles that the page's policy allows. */
      readonly nonce: string
    }

export interface ReadingAnswers {
  readonly difference: Difference
  readonly original: Original
}

export type ReadingMessage =
  | { readonly kind: 'answer'; readonly answer: ReadingAnswers[keyof ReadingAnswers] }
  | { readonly kind: 'broken'; readonly reason: string }

/** Work under way. `stop` ends it; the answer then never comes. */
export interface ReadingWork<T> {
  readonly answer: Promise<T>
  stop(): void
}

type TaskOf<K extends keyof ReadingAnswers> = Extract<ReadingTask, { readonly kind: K }>

/** Does one thing in a worker of its own that ends with the work. Rejects only where the program is wrong. */
export function workApart<K extends keyof ReadingAnswers>(task: TaskOf<K>): ReadingWork<ReadingAnswers[K]> {
  const worker = new Worker(new URL('./reading.worker.ts', import.meta.url), { type: 'module' })
  const answer = new Promise<ReadingAnswers[K]>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<ReadingMessage>) => {
      if (data.kind === 'answer') resolve(data.answer as ReadingAnswers[K])
      else reject(new Error(data.reason))
    }
    worker.onerror = ({ message }) => reject(new Error(message || 'the worker could not start'))
    worker.postMessage(task)
  }).finally(() => worker.terminate())
  return { answer, stop: () => worker.terminate() }
}
