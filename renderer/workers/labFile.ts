/** The lab file, from the screen's side. */
import type { LabFileFailure } from '../../shared/archive/labFile.ts'
import type { Lab } from '../../shared/lab/model.ts'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'

export type LabFileRequest =
  | { readonly kind: 'pack'; readonly lab: Lab }
  /** `into` names a lab whose database does not exist yet or is empty. */
  | { readonly kind: 'unpack'; readonly bytes: Uint8Array; readonly into: Lab }

export type LabFileAnswer =
  | {
      readonly ok: true
      readonly kind: 'packed'
      readonly bytes: Uint8Array<ArrayBuffer>
      /** What looks like a secret in it. */
      readonly found: readonly SecretFound[]
    }
  | { readonly ok: true; readonly kind: 'unpacked'; readonly name: string; readonly wasRight: boolean }
  | LabFileFailure

/** Packs or unpacks in a worker of its own, which ends with the work. */
export function askLabFileWorker(request: LabFileRequest): Promise<LabFileAnswer> {
  const worker = new Worker(new URL('./labFile.worker.ts', import.meta.url), { type: 'module' })
  return new Promise<LabFileAnswer>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<LabFileAnswer>) => resolve(data)
    worker.onerror = (event) => reject(new Error(event.message || 'the worker could not start'))
    worker.postMessage(request)
  }).finally(() => worker.terminate())
}
