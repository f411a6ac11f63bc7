/** RFC 9649 §2: the chunks of a WebP file, and which of them are needed to show the picture. */
import { joinBytes } from './bytes.ts'

const needed = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP'])
/** Flags of VP8X that tell of Exif and of XMP (§2.7). */
const tells = 0x08 | 0x04

/** @returns null where the chunks do not follow one another as they must */
export function withoutPlaceInWebp(bytes: Uint8Array): Uint8Array | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const whole = Math.min(bytes.length, 8 + view.getUint32(4, true))
  const kept: Uint8Array[] = []
  for (let at = 12; at + 8 <= whole;) {
    const size = view.getUint32(at + 4, true)
    const end = at + 8 + size + (size % 2)
    if (at + 8 + size > whole) return null
    const name = String.fromCharCode(...bytes.subarray(at, at + 4))
    const chunk = Uint8Array.from(bytes.subarray(at, Math.min(end, whole)))
    if (name === 'VP8X') chunk[8] = chunk[8]! & ~tells
    if (needed.has(name)) kept.push(chunk)
    at = end
  }
  const body = joinBytes(kept)
  const head = Uint8Array.from(bytes.subarray(0, 12))
  new DataView(head.buffer).setUint32(4, body.length + 4, true)
  return joinBytes([head, body])
}
