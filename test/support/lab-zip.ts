/** A lab of a test as a lab file. */
import { zipSync, type Zippable } from 'fflate'
import type { OpenLab } from '../../renderer/db/lab.ts'
import { labToFiles } from '../../shared/archive/labFile.ts'
import type { Surroundings } from '../../shared/lab/acts.ts'

/** The bytes of the file that the lab is when it is taken out, hardly compressed. */
export async function zippedLab(around: Surroundings, lab: OpenLab, name: string): Promise<Uint8Array> {
  const tools = {
    sha256: async (bytes: Uint8Array) =>
      Buffer.from(await crypto.subtle.digest('SHA-256', new Uint8Array(bytes))).toString('hex'),
    encode: (text: string) => new TextEncoder().encode(text),
    decode: (bytes: Uint8Array) => new TextDecoder().decode(bytes),
  }
  const about = { id: lab.id, name, created: around.clock.now() }
  const files = await labToFiles(about, await lab.dump(), around.clock.now(), tools)
  const tree: Zippable = Object.fromEntries([...files].map(([path, bytes]) => [path, [bytes, { level: 1 }]]))
  return zipSync(tree)
}
