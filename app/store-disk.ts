/** The disk as rewriting the store needs it: every step waits until it is done, and says so by returning. */
import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs'
import { dirname } from 'node:path'

/** Steps on the disk. Each throws what the system answers. */
export interface StoreDisk {
  has(path: string): boolean
  /** Makes a folder that only its owner may read. One that is there stays. */
  makeFolder(path: string): void
  /** Writes bytes at an offset; at 0 the file begins anew. */
  write(path: string, offset: number, bytes: Uint8Array): void
  /** At most `length` bytes from an offset on. */
  read(path: string, offset: number, length: number): Uint8Array
  /** Waits until a file's bytes, or a folder's names, are on the disk. */
  sync(path: string): void
  /** Renames a file or folder and waits until both folders say so. */
  rename(from: string, to: string): void
  /** Removes a file or a folder with all in it; nothing where there is none. */
  remove(path: string): void
}

/** Another program, such as a virus scanner, may hold a file for a moment. */
const busy: readonly string[] = ['EBUSY', 'EPERM', 'EACCES', 'ENOTEMPTY']
const tries = 40
const pauseMs = 100

export const storeDisk: StoreDisk = {
  has: existsSync,
  makeFolder: (path) => void mkdirSync(path, { recursive: true, mode: 0o700 }),
  write(path, offset, bytes) {
    withFile(path, offset === 0 ? 'w' : 'r+', (file) => {
      for (let at = 0; at < bytes.byteLength;)
        at += writeSync(file, bytes, at, bytes.byteLength - at, offset + at)
    })
  },
  read: (path, offset, length) =>
    withFile(path, 'r', (file) => {
      const bytes = new Uint8Array(Math.max(0, Math.min(length, fstatSync(file).size - offset)))
      let at = 0
      while (at < bytes.byteLength) {
        const read = readSync(file, bytes, at, bytes.byteLength - at, offset + at)
        if (read === 0) break
        at += read
      }
      return bytes.subarray(0, at)
    }),
  sync: (path) => withFile(path, 'r+', (file) => fsyncSync(file)),
  rename(from, to) {
    whenFree(() => renameSync(from, to))
    syncFolder(dirname(from))
    if (dirname(to) !== dirname(from)) syncFolder(dirname(to))
  },
  remove: (path) => rmSync(path, { recursive: true, force: true, maxRetries: 10, retryDelay: pauseMs }),
}

function withFile<T>(path: string, flags: string, use: (file: number) => T): T {
  const file = openSync(path, flags, 0o600)
  try {
    return use(file)
  } finally {
    closeSync(file)
  }
}

/** Windows opens no folder as a file; its file systems keep the order of names by themselves. */
function syncFolder(path: string): void {
  if (process.platform !== 'win32') withFile(path, 'r', (file) => fsyncSync(file))
}

function whenFree(act: () => void): void {
  for (let left = tries; ; left--) {
    try {
      return act()
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? String(error.code) : ''
      if (left === 0 || !busy.includes(code)) throw error
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMs)
    }
  }
}
