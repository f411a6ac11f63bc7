/** Checks one journal's seal, and writes the sealed journal where that is asked for. */
import { zipSync, type Zippable } from 'fflate'
import { systemClock } from '../../shared/lab/moment.ts'
import { blobsOfSeals, findWrongBytes } from '../../shared/journal/seal/blobs.ts'
import { sha256Of } from '../../shared/journal/seal/canonical.ts'
import { checkSeals } from '../../shared/journal/seal/check.ts'
import { sealedJournalFiles } from '../../shared/journal/seal/files/export.ts'
import { findBrokenEntry } from '../../shared/journal/seal/heads.ts'
import { breakSentence, fieldName } from '../../shared/journal/seal/sentences.ts'
import { SecretScan } from '../../shared/safety/secrets/scan.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import type { SealAnswer, SealTask, StruckPlace } from './seal.ts'

addEventListener('message', ({ data }: MessageEvent<SealTask>) => {
  void work(data)
    .catch((error: unknown): SealAnswer => ({ kind: 'failed', reason: String(error) }))
    .then((answer) => postMessage(answer))
})

async function work({ kind, lab: id, project, title, noted }: SealTask): Promise<SealAnswer> {
  const lab = await OpenLab.open(id, { indexedDB, IDBKeyRange }, systemSurroundings())
  try {
    const { seals, salts, records } = await lab.sealedJournal(project)
    const held = checkSeals(seals, salts, records, noted)
    if (!held.ok)
      return {
        kind: 'broken',
        sentence: held.sentence,
        entry: findBrokenEntry(held.firstBreak, records),
      }
    const bytesOf = async (sha256: string) => (await lab.queries.findBlob(sha256))?.bytes
    const wrong = await findWrongBytes(seals, bytesOf, sha256Of)
    if (wrong)
      return { kind: 'broken', sentence: breakSentence(wrong), entry: findBrokenEntry(wrong, records) }
    const struck = held.struck.map(({ of, field }): StruckPlace => {
      const entry = findBrokenEntry({ code: 'words', number: null, of, field }, records)
      return { words: fieldName(field), entry }
    })
    const about = { kind: 'held', sentence: held.sentence, head: held.head, late: held.late, struck } as const
    if (kind === 'check') return { ...about, bytes: null, found: [] }
    const blobs = new Map<string, Uint8Array>()
    for (const sha256 of blobsOfSeals(seals)) {
      const bytes = await bytesOf(sha256)
      if (bytes) blobs.set(sha256, bytes)
    }
    const made = systemClock.now()
    const files = sealedJournalFiles({ project, title, seals, salts, records, blobs, made })
    if (!files.ok) return { kind: 'broken', sentence: files.sentence, entry: null }
    const scan = new SecretScan()
    scan.readAll(records)
    return { ...about, bytes: toZip(files.value), found: scan.found }
  } finally {
    lab.close()
  }
}

function toZip(files: ReadonlyMap<string, Uint8Array>): Uint8Array<ArrayBuffer> {
  const tree: Zippable = Object.fromEntries([...files].map(([path, bytes]) => [path, bytes]))
  return zipSync(tree)
}
