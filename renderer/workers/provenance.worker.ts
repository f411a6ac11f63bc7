/** Writes the provenance of a procedure, a project or a lab, away from the screen. */
import { provForms } from '../../shared/provenance/prov/forms.ts'
import type { ProvDocument } from '../../shared/provenance/prov/model.ts'
import { provenanceOf } from '../../shared/provenance/prov/provenance.ts'
import { SecretScan, type SecretFound } from '../../shared/safety/secrets/scan.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import type { ProvenanceAnswer, ProvenanceTask } from './provenance.ts'

addEventListener('message', ({ data }: MessageEvent<ProvenanceTask>) => {
  void write(data)
    .catch((error: unknown): ProvenanceAnswer => ({ ok: false, reason: String(error) }))
    .then((answer) => postMessage(answer, answer.ok ? { transfer: [answer.bytes.buffer] } : {}))
})

async function write({ lab: id, scope, form }: ProvenanceTask): Promise<ProvenanceAnswer> {
  const lab = await OpenLab.open(id, { indexedDB, IDBKeyRange }, systemSurroundings())
  try {
    const { changes, linkStates, captures } = await lab.past()
    const document = provenanceOf({ lab: id, changes, linkStates, captures }, scope)
    const bytes = new TextEncoder().encode(provForms[form].write(document))
    return { ok: true, bytes, found: secretsIn(document) }
  } finally {
    lab.close()
  }
}

/** Looks at texts as they are: a form may write them with escapes that hide what they say. */
function secretsIn({ statements }: ProvDocument): SecretFound[] {
  const scan = new SecretScan()
  for (const { attributes } of statements)
    for (const { value } of attributes) {
      if (value.kind === 'text') scan.read(value.text)
      else if (value.kind === 'address') scan.read(value.address)
    }
  return scan.found
}
