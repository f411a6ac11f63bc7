/** PNG (Third Edition) §5 and §11.3: chunks, and which of them are needed to show the picture. */
import { joinBytes } from './bytes.ts'

/** Text and Exif (§11.3.3, §11.3.4.8) can say where a picture was taken; so can chunks that no standard names. */
const needed = new Set([
  ...['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'cHRM', 'gAMA', 'iCCP', 'sBIT', 'sRGB', 'cICP', 'mDCV', 'cLLI'],
  ...['bKGD', 'hIST', 'pHYs', 'sPLT', 'acTL', 'fcTL', 'fdAT'],
])

/** @returns null where the chunks do not follow one another as they must */
export function withoutPlaceInPng(bytes: Uint8Array): Uint8Array | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const kept = [bytes.subarray(0, 8)]
  let at = 8
  while (at + 12 <= bytes.length) {
    const end = at + 12 + view.getUint32(at)
    if (end > bytes.length) return null
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8))
    if (needed.has(name)) kept.push(bytes.subarray(at, end))
    // What stands behind the end is no part of the picture.
    if (name === 'IEND') return joinBytes(kept)
    at = end
  }
  return null
}
