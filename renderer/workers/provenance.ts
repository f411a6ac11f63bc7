/** Writing provenance for others, from the screen's side. */
import type { LabId } from '../../shared/lab/ids.ts'
import type { ProvForm } from '../../shared/provenance/prov/forms.ts'
import type { Scope } from '../../shared/provenance/prov/scope.ts'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'

export interface ProvenanceTask {
  readonly lab: LabId
  readonly scope: Scope
  readonly form: ProvForm
}

export type ProvenanceAnswer =
  | {
      readonly ok: true
      readonly bytes: Uint8Array<ArrayBuffer>
      /** What looks like a secret in what was written. */
      readonly found: readonly SecretFound[]
    }
  | { readonly ok: false; readonly reason: string }

/** Writes one file in a worker of its own that ends with it: a large lab takes seconds. */
export function askProvenanceWorker(task: ProvenanceTask): Promise<ProvenanceAnswer> {
  const worker = new Worker(new URL('./provenance.worker.ts', import.meta.url), { type: 'module' })
  return new Promise<ProvenanceAnswer>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<ProvenanceAnswer>) => resolve(data)
    worker.onerror = ({ message }) => resolve({ ok: false, reason: message })
    worker.postMessage(task)
  }).finally(() => worker.terminate())
}
