/** Reading and writing whole files, without Electron. */
import { randomBytes } from 'node:crypto'
import { open, readFile, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { refusedFile, type OpenedFile } from '../shared/host.ts'

/**
 * Writes beside the target first and renames over it once the bytes are on the disk, so that a crash or a full disk
 * leaves either the old file or the new one, never half of one.
 */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const beside = join(
    dirname(path),
    `.${basename(path).slice(0, 100)}.${randomBytes(6).toString('hex')}.part`,
  )
  try {
    const file = await open(beside, 'wx', 0o644)
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(beside, path)
  } catch (error) {
    await rm(beside, { force: true })
    throw error
  }
}

/** Reads a file, or says that it is larger than the limit (bytes) without reading it. */
export async function readWithin(path: string, limit: number): Promise<OpenedFile> {
  const name = basename(path)
  const { size } = await stat(path)
  if (size > limit) return refusedFile(name, size, limit)
  const read = await readFile(path)
  // A file can grow between the two looks; and a plain copy keeps Node's pooled memory out of the message.
  if (read.byteLength > limit) return refusedFile(name, read.byteLength, limit)
  return { kind: 'read', name, bytes: new Uint8Array(read) }
}
