/** Packs a lab into one zip and unpacks it, away from the screen. */
import { filesToLab, labToFiles } from '../../shared/archive/labFile.ts'
import type { Lab } from '../../shared/lab/model.ts'
import { systemClock } from '../../shared/lab/moment.ts'
import { fail } from '../../shared/lab/result.ts'
import { SecretScan } from '../../shared/safety/secrets/scan.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import type { LabFileAnswer, LabFileRequest } from './labFile.ts'
import { fromZip, labFileTools, toZip } from './labZip.ts'

const open = (lab: Lab): Promise<OpenLab> =>
  OpenLab.open(lab.id, { indexedDB, IDBKeyRange }, systemSurroundings())

addEventListener('message', ({ data }: MessageEvent<LabFileRequest>) => {
  void (data.kind === 'pack' ? pack(data.lab) : unpack(data.bytes, data.into))
    .catch((error: unknown): LabFileAnswer =>
      fail('damaged', `The lab file could not be used (${String(error)}). The lab is as it was.`),
    )
    .then((answer) => {
      postMessage(answer, answer.ok && answer.kind === 'packed' ? { transfer: [answer.bytes.buffer] } : {})
    })
})

async function pack(lab: Lab): Promise<LabFileAnswer> {
  const opened = await open(lab)
  try {
    const dump = await opened.dump()
    const scan = new SecretScan()
    scan.readAll(dump)
    const files = await labToFiles(lab, dump, systemClock.now(), labFileTools)
    return { ok: true, kind: 'packed', bytes: toZip(files), found: scan.found }
  } finally {
    opened.close()
  }
}

async function unpack(bytes: Uint8Array, into: Lab): Promise<LabFileAnswer> {
  const files = fromZip(bytes)
  if (!files)
    return fail(
      'not-a-lab-file',
      'This is not a lab file of Stillroom, or it is damaged. Nothing was brought in.',
    )
  const read = await filesToLab(files, labFileTools)
  if (!read.ok) return read
  const lab = await open(into)
  try {
    await lab.fill(read.value.dump)
    const wasRight = await lab.rebuild()
    return { ok: true, kind: 'unpacked', name: read.value.lab.name, wasRight }
  } catch (error) {
    await lab.destroy()
    throw error
  } finally {
    lab.close()
  }
}
