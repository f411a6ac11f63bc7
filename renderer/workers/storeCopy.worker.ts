/** Writes a lab out and reads one back. Nothing is given out that is not the same record for record. */
import { filesToLab, labToFiles } from '../../shared/archive/labFile.ts'
import { findDifference } from '../../shared/archive/sameRecords.ts'
import type { Lab } from '../../shared/lab/model.ts'
import { systemClock } from '../../shared/lab/moment.ts'
import type { Dump } from '../../shared/lab/upgrade.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import { fromZip, labFileTools, toZip } from './labZip.ts'
import type { StoreCopyAnswer, StoreCopyRequest } from './storeCopy.ts'

addEventListener('message', ({ data }: MessageEvent<StoreCopyRequest>) => {
  void (data.kind === 'out' ? copyOut(data.lab) : copyIn(data.bytes))
    .catch((error: unknown): StoreCopyAnswer => ({ kind: 'failed', why: String(error) }))
    .then((answer) => postMessage(answer, answer.kind === 'out' ? { transfer: [answer.bytes.buffer] } : {}))
})

const open = ({ id }: Lab): Promise<OpenLab> =>
  OpenLab.open(id, { indexedDB, IDBKeyRange }, systemSurroundings())

async function copyOut(lab: Lab): Promise<StoreCopyAnswer> {
  const opened = await open(lab)
  try {
    const dump = await opened.dump()
    const bytes = toZip(await labToFiles(lab, dump, systemClock.now(), labFileTools))
    const differing = findDifference(dump, (await read(bytes)).dump)
    if (differing !== null) throw new Error(`the table ${differing} of “${lab.name}” cannot be written out`)
    return { kind: 'out', bytes, sha256: await labFileTools.sha256(bytes) }
  } finally {
    opened.close()
  }
}

async function copyIn(bytes: Uint8Array): Promise<StoreCopyAnswer> {
  const { lab, dump } = await read(bytes)
  const opened = await open(lab)
  try {
    await opened.fill(dump)
    const differing = findDifference(dump, await opened.dump())
    if (differing !== null)
      throw new Error(`the table ${differing} of “${lab.name}” was read back differently`)
    return { kind: 'in' }
  } finally {
    opened.close()
  }
}

async function read(bytes: Uint8Array): Promise<{ lab: Lab; dump: Dump }> {
  const files = fromZip(bytes)
  const found = files && (await filesToLab(files, labFileTools))
  if (!found?.ok) throw new Error(found?.sentence ?? 'the file cannot be unpacked')
  return found.value
}
