/** Unpacking gzip (RFC 1952) within a bound. */
import { Gunzip } from 'fflate'

export type Unpacked =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly code: 'too-large'; readonly length: number }
  | { readonly ok: false; readonly code: 'broken' }

export function isGzip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x1f && bytes[1] === 0x8b
}

/** Little is fed at a time, so that what comes out of one piece (up to a thousand times as much) stays small. */
const fed = 8192

/** The bytes that were packed. Unpacking ends as soon as more than `limit` bytes have come out. */
export function maybeUnpacked(bytes: Uint8Array, limit: number): Unpacked {
  const pieces: Uint8Array[] = []
  let length = 0
  const gunzip = new Gunzip((piece) => {
    pieces.push(piece)
    length += piece.length
  })
  try {
    for (let at = 0; at < bytes.length && length <= limit; at += fed)
      gunzip.push(bytes.subarray(at, at + fed), at + fed >= bytes.length)
  } catch {
    return { ok: false, code: 'broken' }
  }
  return length > limit
    ? { ok: false, code: 'too-large', length }
    : { ok: true, bytes: joined(pieces, length) }
}

function joined(pieces: readonly Uint8Array[], length: number): Uint8Array {
  const all = new Uint8Array(length)
  let at = 0
  for (const piece of pieces) {
    all.set(piece, at)
    at += piece.length
  }
  return all
}
