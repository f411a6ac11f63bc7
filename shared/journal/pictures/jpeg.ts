/** The parts of a JPEG file (ITU-T T.81 §B.1), and which of them are needed to show it. */
import { hasSigns, joinBytes } from './bytes.ts'

/** A marker with all that belongs to it; a scan's compressed data belongs to its marker SOS. */
export interface JpegPart {
  readonly marker: number
  readonly start: number
  readonly end: number
}

const [SOI, EOI, SOS, COM] = [0xd8, 0xd9, 0xda, 0xfe]
const [APP0, APP2, APP14, APP15] = [0xe0, 0xe2, 0xee, 0xef]

/**
 * The parts of the first picture in a file, from SOI to EOI. A file that is cut off ends with what is there of its last scan.
 * @returns null where the markers do not follow one another as they must
 */
export function jpegParts(bytes: Uint8Array): readonly JpegPart[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const parts: JpegPart[] = []
  let at = 0
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return null
    const marker = bytes[at + 1]!
    // Any marker may have fill bytes before it (§B.1.1.2).
    if (marker === 0xff) {
      at += 1
      continue
    }
    const isAlone = marker === SOI || marker === EOI || marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)
    if (!isAlone && at + 4 > bytes.length) return null
    const head = isAlone ? at + 2 : at + 2 + view.getUint16(at + 2)
    const end = marker === SOS ? endOfScan(bytes, head) : head
    if (end > bytes.length || (parts.length === 0 && marker !== SOI)) return null
    parts.push({ marker, start: at, end })
    if (marker === EOI) return parts
    at = end
  }
  return parts.some(({ marker }) => marker === SOS) ? parts : null
}

/** Where a scan's data ends: before the first marker that is neither a stuffed zero nor a restart (§B.1.1.5). */
function endOfScan(bytes: Uint8Array, from: number): number {
  let at = from
  for (;;) {
    at = bytes.indexOf(0xff, at)
    if (at === -1 || at + 1 >= bytes.length) return bytes.length
    const next = bytes[at + 1]!
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at
    at += next === 0xff ? 1 : 2
  }
}

/**
 * Needed to show the pixels as they are meant: all but comments and application data, and of these JFIF, colour
 * profiles (ICC.1 §B.4) and Adobe's word on the colours. Anything else can say where the picture was taken.
 */
function isNeeded(bytes: Uint8Array, { marker, start }: JpegPart): boolean {
  if (marker === COM) return false
  if (marker < APP0 || marker > APP15) return true
  if (marker === APP0) return hasSigns(bytes, start + 4, 'JFIF\0')
  if (marker === APP2) return hasSigns(bytes, start + 4, 'ICC_PROFILE\0')
  return marker === APP14 && hasSigns(bytes, start + 4, 'Adobe')
}

/**
 * Takes out all that is not needed to show the picture, also what stands behind its end: phones append further pictures
 * and films there, which have places of their own.
 * @param orientation Exif's number, 1 to 8; it stays
 */
export function withoutPlaceInJpeg(bytes: Uint8Array, orientation: number): Uint8Array | null {
  const parts = jpegParts(bytes)
  if (!parts) return null
  const kept = parts.filter((part) => isNeeded(bytes, part))
  const turned = orientation === 1 ? [] : [toOrientationPart(orientation)]
  // JFIF wants to be first, directly behind SOI; Exif comes next.
  const head = kept[1]?.marker === APP0 ? 2 : 1
  const slices = kept.map(({ start, end }) => bytes.subarray(start, end))
  return joinBytes([...slices.slice(0, head), ...turned, ...slices.slice(head)])
}

/** APP1 with Exif that holds one field, Orientation (Exif 2.32 §4.5.4, §4.6.2; TIFF 6.0 §2). */
export function toOrientationPart(orientation: number): Uint8Array {
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8]
  const field = [0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0]
  const data = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff, 0, 1, ...field, 0, 0, 0, 0]
  return Uint8Array.from([0xff, 0xe1, 0, data.length + 2, ...data])
}
