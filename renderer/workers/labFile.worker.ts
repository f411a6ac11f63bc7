/** Packs a lab into one zip and unpacks it, away from the screen. */
import { unzipSync, zipSync, type Zippable } from 'fflate'
import { filesToLab, labToFiles, type Files, type Tools } from '../../shared/archive/labFile.ts'
import type { Lab } from '../../shared/lab/model.ts'
import { systemClock } from '../../shared/lab/moment.ts'
import { fail } from '../../shared/lab/result.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import type { LabFileAnswer, LabFileRequest } from './labFile.ts'

/** More than this is not unpacked, in bytes: a small zip can claim any size. */
const MOST_UNPACKED = 4 * 1024 ** 3

const tools: Tools = {
  sha256: async (bytes) => {
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>))
    return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')
  },
  encode: (text) => new TextEncoder().encode(text),
  decode: (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes),
}

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
    const files = await labToFiles(lab, await opened.dump(), systemClock.now(), tools)
    return { ok: true, kind: 'packed', bytes: toZip(files) }
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
  const read = await filesToLab(files, tools)
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

// The synchronous calls: the library's own workers start from blob addresses, which the page's policy refuses.
function toZip(files: Files): Uint8Array<ArrayBuffer> {
  // A fixed moment, so that equal labs give equal files; originals are mostly packed already.
  const options = (path: string) =>
    ({ level: path.startsWith('blobs/') ? 0 : 6, mtime: '2000-01-01T00:00:00Z' }) as const
  const tree: Zippable = Object.fromEntries([...files].map(([path, bytes]) => [path, [bytes, options(path)]]))
  return zipSync(tree)
}

/** null where the bytes are no zip, or claim to be larger than may be unpacked. */
function fromZip(bytes: Uint8Array): Map<string, Uint8Array> | null {
  let total = 0
  try {
    const files = unzipSync(bytes, { filter: ({ originalSize }) => (total += originalSize) <= MOST_UNPACKED })
    return total > MOST_UNPACKED
      ? null
      : new Map(Object.entries(files).filter(([path]) => !path.endsWith('/')))
  } catch {
    return null
  }
}
