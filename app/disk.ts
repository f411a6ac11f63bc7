/** Reading and writing whole files, without Electron. */
import { randomBytes } from 'node:crypto'
import { constants } from 'node:fs'
import { open, realpath, rename, rm, stat, type FileHandle } from 'node:fs/promises'
import { basename, dirname, join, sep } from 'node:path'
import { refusedFile, type OpenedFile } from '../shared/host.ts'
import { maybeSegments } from '../shared/intake/folder-rules.ts'

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

/** A pipe would keep a plain open waiting for ever. Windows knows neither flag. */
const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0)
const withoutLink = withoutWaiting | (constants.O_NOFOLLOW ?? 0)

/**
 * Reads a file, or says that it is larger than the limit (bytes) without reading it.
 * @param name what the file is called in the answer
 * @throws what the system answers, and EISDIR for a folder or another thing that is no regular file
 */
export async function readWithin(path: string, limit: number, name = basename(path)): Promise<OpenedFile> {
  const file = await open(path, withoutWaiting)
  try {
    return await readHandle(file, limit, name)
  } finally {
    await file.close()
  }
}

/**
 * Reads a file of a folder by its relative name, as `readWithin` does.
 * @throws ENOENT too when the name leads out of the folder, by its form or through a symbolic link
 */
export function readInside(folder: string, name: string, limit: number): Promise<OpenedFile> {
  return withInside(folder, name, (file) => readHandle(file, limit, name))
}

/** Reads at most `length` bytes of a file from an offset on. @throws as `readWithin` does */
export async function readPart(path: string, offset: number, length: number): Promise<Uint8Array> {
  const file = await open(path, withoutWaiting)
  try {
    return await readPartOf(file, offset, length)
  } finally {
    await file.close()
  }
}

/** Reads a part of a file of a folder by its relative name. @throws as `readInside` does */
export function readPartInside(
  folder: string,
  name: string,
  offset: number,
  length: number,
): Promise<Uint8Array> {
  return withInside(folder, name, (file) => readPartOf(file, offset, length))
}

async function withInside<T>(
  folder: string,
  name: string,
  read: (file: FileHandle) => Promise<T>,
): Promise<T> {
  const segments = maybeSegments(name)
  if (segments === undefined) throw withCode('ENOENT')
  const path = await realpath(join(folder, ...segments))
  await checkInside(folder, path)
  const file = await open(path, withoutLink)
  try {
    // Whoever swaps a folder for a link between the two looks has another file opened, and that is seen here.
    if ((await realpath(path)) !== path || !(await isSame(file, path))) throw withCode('ENOENT')
    return await read(file)
  } finally {
    await file.close()
  }
}

async function checkInside(folder: string, path: string): Promise<void> {
  const root = await realpath(folder)
  if (!path.startsWith(root.endsWith(sep) ? root : root + sep)) throw withCode('ENOENT')
}

async function isSame(file: FileHandle, path: string): Promise<boolean> {
  const [one, other] = await Promise.all([file.stat(), stat(path)])
  return one.ino === other.ino && one.dev === other.dev
}

async function readHandle(file: FileHandle, limit: number, name: string): Promise<OpenedFile> {
  const stats = await file.stat()
  if (!stats.isFile()) throw withCode('EISDIR')
  if (stats.size > limit) return refusedFile(name, stats.size, limit)
  const read = await file.readFile()
  // A file can grow between the two looks; and a plain copy keeps Node's pooled memory out of the message.
  if (read.byteLength > limit) return refusedFile(name, read.byteLength, limit)
  return { kind: 'read', name, bytes: new Uint8Array(read) }
}

async function readPartOf(file: FileHandle, offset: number, length: number): Promise<Uint8Array> {
  const stats = await file.stat()
  if (!stats.isFile()) throw withCode('EISDIR')
  const bytes = new Uint8Array(Math.max(Math.min(length, stats.size - offset), 0))
  let at = 0
  while (at < bytes.length) {
    const { bytesRead } = await file.read(bytes, at, bytes.length - at, offset + at)
    // It may have become shorter meanwhile.
    if (bytesRead === 0) break
    at += bytesRead
  }
  return at === bytes.length ? bytes : bytes.slice(0, at)
}

function withCode(code: string): Error {
  return Object.assign(new Error(code), { code })
}
