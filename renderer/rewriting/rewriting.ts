/**
 * Rewriting the store, from the page's side: every lab goes out to the shell's files, and comes back into empty databases.
 * Nothing else of the store is open meanwhile; what the shell does between stands in app/rewriting.ts.
 */
import { largestStorePiece, type Host, type HostResult, type StoreFile } from '../../shared/host.ts'
import { findDifference } from '../../shared/archive/sameRecords.ts'
import { LabRegistry, type RegistryDump } from '../db/labs.ts'
import type { StorageFactory } from '../db/schema.ts'
import { deleteDatabases, labsOfStore } from '../db/wholeStore.ts'
import { askStoreCopyWorker } from '../workers/storeCopy.ts'
import { labFileTools } from '../workers/labZip.ts'

type StoreHost = Pick<
  Host,
  'writeRewriting' | 'finishRewriting' | 'leaveRewriting' | 'readRewriting' | 'endRewriting'
>

/** Called with what is done, 0 to 1. */
export type OnShare = (share: number) => void

/** What went wrong, for the person. */
class RewritingProblem extends Error {}

const REGISTRY = 'registry.json'

/**
 * Writes all labs out. The program starts anew behind it, so this returns only what went wrong; then the old store is as it
 * was, and what was written out is gone.
 */
export async function writeOut(host: StoreHost, storage: StorageFactory, onShare: OnShare): Promise<string> {
  try {
    const files = await writeAll(host, storage, onShare)
    unwrap(await host.finishRewriting({ files }))
    // The shell ends this page; nothing may be opened meanwhile.
    return await new Promise<never>(() => undefined)
  } catch (error) {
    await host.leaveRewriting().catch(() => undefined)
    return sentenceOf(
      error,
      'The store was not rewritten',
      'The labs are as they were. Save them to files, and try again.',
    )
  }
}

async function writeAll(host: StoreHost, storage: StorageFactory, onShare: OnShare): Promise<StoreFile[]> {
  const registry = await withRegistry(storage, (one) => one.dump())
  const labs = await labsOfStore(registry.labs, storage.indexedDB)
  const files: StoreFile[] = []
  for (const [number, lab] of labs.entries()) {
    const copied = await askStoreCopyWorker({ kind: 'out', lab })
    if (copied.kind !== 'out') throw new Error(copied.kind === 'failed' ? copied.why : 'another answer')
    files.push(await send(host, `lab-${lab.id}.zip`, copied.bytes, copied.sha256))
    onShare((number + 1) / (labs.length + 1))
  }
  const bytes = labFileTools.encode(JSON.stringify(registry))
  if (findDifference({ ...registry }, { ...parseRegistry(bytes) }) !== null)
    throw new Error('the list of labs cannot be written out')
  return [...files, await send(host, REGISTRY, bytes, await labFileTools.sha256(bytes))]
}

async function send(host: StoreHost, name: string, bytes: Uint8Array, sha256: string): Promise<StoreFile> {
  for (let offset = 0; offset === 0 || offset < bytes.length; offset += largestStorePiece) {
    // A copy: what travels would take its whole buffer along.
    const piece = bytes.slice(offset, offset + largestStorePiece)
    unwrap(await host.writeRewriting({ name, offset, bytes: piece }))
  }
  return { name, size: bytes.length, sha256 }
}

/** Fills new databases from what was written out, and compares. Begins anew each time, whatever an earlier run left. */
export async function readBack(
  host: StoreHost,
  storage: StorageFactory,
  files: readonly StoreFile[],
  onShare: OnShare,
): Promise<{ readonly isDone: boolean; readonly sentence: string }> {
  try {
    await deleteDatabases(storage.indexedDB)
    for (const [number, file] of files.entries()) {
      const bytes = await receive(host, file)
      if (file.name === REGISTRY) await fillRegistry(storage, parseRegistry(bytes))
      else {
        const copied = await askStoreCopyWorker({ kind: 'in', bytes })
        if (copied.kind === 'failed') throw new Error(copied.why)
      }
      onShare((number + 1) / files.length)
    }
    return { isDone: true, sentence: unwrap(await host.endRewriting()).sentence }
  } catch (error) {
    const sentence = sentenceOf(
      error,
      'The store could not be read back',
      'Nothing is lost: all labs lie written out in the program’s folder. Make room on the disk and try again.',
    )
    return { isDone: false, sentence }
  }
}

async function receive(host: StoreHost, { name, size, sha256 }: StoreFile): Promise<Uint8Array> {
  const whole = new Uint8Array(size)
  for (let offset = 0; offset < size;) {
    const { bytes } = unwrap(await host.readRewriting({ name, offset, length: largestStorePiece }))
    if (bytes.length === 0) throw new Error(`${name} is too short`)
    whole.set(bytes, offset)
    offset += bytes.length
  }
  if ((await labFileTools.sha256(whole)) !== sha256) throw new Error(`${name} is not as it was written out`)
  return whole
}

async function fillRegistry(storage: StorageFactory, dump: RegistryDump): Promise<void> {
  await withRegistry(storage, async (registry) => {
    await registry.fill(dump)
    if (findDifference({ ...dump }, { ...(await registry.dump()) }) !== null)
      throw new Error('the list of labs was read back differently')
  })
}

async function withRegistry<T>(
  storage: StorageFactory,
  act: (registry: LabRegistry) => Promise<T>,
): Promise<T> {
  const registry = new LabRegistry(storage)
  try {
    return await act(registry)
  } finally {
    registry.close()
  }
}

/** What was checked by its digest is what this program wrote. */
function parseRegistry(bytes: Uint8Array): RegistryDump {
  return JSON.parse(labFileTools.decode(bytes)) as RegistryDump
}

function unwrap<T>(result: HostResult<T>): T {
  if (!result.ok) throw new RewritingProblem(result.sentence)
  return result.value
}

function sentenceOf(error: unknown, happened: string, next: string): string {
  if (error instanceof RewritingProblem) return error.message
  console.warn(error)
  return `${happened} (${error instanceof Error ? error.message : String(error)}). ${next}`
}
