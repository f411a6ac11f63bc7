/** The lab file as one zip. */
import { unzipSync, zipSync, type Zippable } from 'fflate'
import type { Files, Tools } from '../../shared/archive/labFile.ts'

/** More than this is not unpacked, in bytes: a small zip can claim any size. */
const MOST_UNPACKED = 4 * 1024 ** 3

/** What the lab file needs, from the browser. */
export const labFileTools: Tools = {
  sha256: async (bytes) => {
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>))
    return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')
  },
  encode: (text) => new TextEncoder().encode(text),
  decode: (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes),
}

// The synchronous calls: the library's own workers start from blob addresses, which the page's policy refuses.
export function toZip(files: Files): Uint8Array<ArrayBuffer> {
  // A fixed moment, so that equal labs give equal files; originals are mostly packed already.
  const options = (path: string) =>
    ({ level: path.startsWith('blobs/') ? 0 : 6, mtime: '2000-01-01T00:00:00Z' }) as const
  const tree: Zippable = Object.fromEntries([...files].map(([path, bytes]) => [path, [bytes, options(path)]]))
  return zipSync(tree)
}

/** null where the bytes are no zip, or claim to be larger than may be unpacked. */
export function fromZip(bytes: Uint8Array): Map<string, Uint8Array> | null {
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
