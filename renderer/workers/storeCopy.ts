/** One lab out of its database and back into one, exactly; away from the screen. */
import type { Lab } from '../../shared/lab/model.ts'

export type StoreCopyRequest =
  | { readonly kind: 'out'; readonly lab: Lab }
  /** Into a database that does not exist yet. */
  | { readonly kind: 'in'; readonly bytes: Uint8Array }

export type StoreCopyAnswer =
  | {
      readonly kind: 'out'
      readonly bytes: Uint8Array<ArrayBuffer>
      /** Lower-case hex. */
      readonly sha256: string
    }
  | { readonly kind: 'in' }
  /** What is not the same, or what the database answered. */
  | { readonly kind: 'failed'; readonly why: string }

/** Does one thing in a worker of its own that ends with it. `out` reads its own file back and compares it first. */
export function askStoreCopyWorker(request: StoreCopyRequest): Promise<StoreCopyAnswer> {
  const worker = new Worker(new URL('./storeCopy.worker.ts', import.meta.url), { type: 'module' })
  return new Promise<StoreCopyAnswer>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<StoreCopyAnswer>) => resolve(data)
    worker.onerror = ({ message }) =>
      resolve({ kind: 'failed', why: message || 'the worker could not start' })
    worker.postMessage(request)
  }).finally(() => worker.terminate())
}
