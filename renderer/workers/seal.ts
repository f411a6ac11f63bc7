/** Checking a journal's seal and taking the sealed journal out, away from the screen. */
import type { EntryId, LabId, ProjectId } from '../../shared/lab/ids.ts'
import type { SealHead } from '../../shared/journal/seal/model.ts'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'

export interface SealTask {
  readonly kind: 'check' | 'take out'
  readonly lab: LabId
  readonly project: ProjectId
  readonly title: string
  /** Heads that were noted or exported earlier. */
  readonly noted: readonly SealHead[]
}

/** A text out of which something was struck, and the entry that it is of, where that can be shown. */
export interface StruckPlace {
  readonly words: string
  readonly entry: EntryId | null
}

export type SealAnswer =
  | {
      readonly kind: 'held'
      readonly sentence: string
      readonly head: SealHead | null
      readonly late: number
      readonly struck: readonly StruckPlace[]
      /** Of `take out`: a zip. */
      readonly bytes: Uint8Array<ArrayBuffer> | null
      /** Of `take out`: what looks like a secret in it. */
      readonly found: readonly SecretFound[]
    }
  | { readonly kind: 'broken'; readonly sentence: string; readonly entry: EntryId | null }
  | { readonly kind: 'failed'; readonly reason: string }

/** Does one thing in a worker of its own that ends with it. */
export function askSealWorker(task: SealTask): Promise<SealAnswer> {
  const worker = new Worker(new URL('./seal.worker.ts', import.meta.url), { type: 'module' })
  return new Promise<SealAnswer>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<SealAnswer>) => resolve(data)
    worker.onerror = ({ message }) => resolve({ kind: 'failed', reason: message })
    worker.postMessage(task)
  }).finally(() => worker.terminate())
}
