/** Pictures, known by their bytes and never by their name: PNG, JPEG, GIF and WebP, which are only pixels. */

export interface Picture {
  readonly format: 'png' | 'jpeg' | 'gif' | 'webp'
  /** Media type (RFC 6838). */
  readonly mediaType: string
  /** In pixels, as stored: a note in the file that it is to be turned is not followed. */
  readonly width: number
  readonly height: number
}

/**
 * The picture that these bytes hold, by its signature and its header.
 * @returns undefined for any other format, and where the header is broken, cut off or names no pixels
 */
export function maybePicture(bytes: Uint8Array): Picture | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  for (const { format, read } of formats) {
    const size = read(view)
    if (size !== undefined && size.width > 0 && size.height > 0)
      return { format, mediaType: `image/${format}`, ...size }
  }
  return undefined
}

interface Size {
  readonly width: number
  readonly height: number
}

/** Says whether these Latin-1 characters stand at that place. */
function hasAt(view: DataView, at: number, signs: string): boolean {
  if (view.byteLength < at + signs.length) return false
  for (let i = 0; i < signs.length; i += 1) if (view.getUint8(at + i) !== signs.charCodeAt(i)) return false
  return true
}

/** PNG (Third Edition) §5.2 and §11.2.1: the signature, then the chunk IHDR. */
function readPng(view: DataView): Size | undefined {
  if (!hasAt(view, 0, '\u0089PNG\r\n\u001a\n') || !hasAt(view, 12, 'IHDR') || view.byteLength < 24)
    return undefined
  return { width: view.getUint32(16), height: view.getUint32(20) }
}

/** GIF89a, "Header" and "Logical Screen Descriptor". */
function readGif(view: DataView): Size | undefined {
  if ((!hasAt(view, 0, 'GIF87a') && !hasAt(view, 0, 'GIF89a')) || view.byteLength < 10) return undefined
  return { width: view.getUint16(6, true), height: view.getUint16(8, true) }
}

/** RFC 9649 §2.5 to §2.7: simple (lossy or lossless) and extended files. */
function readWebp(view: DataView): Size | undefined {
  if (!hasAt(view, 0, 'RIFF') || !hasAt(view, 8, 'WEBP') || view.byteLength < 30) return undefined
  if (hasAt(view, 12, 'VP8X')) return { width: 1 + uint24(view, 24), height: 1 + uint24(view, 27) }
  if (hasAt(view, 12, 'VP8L') && view.getUint8(20) === 0x2f) {
    const bits = view.getUint32(21, true)
    return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) }
  }
  // RFC 6386 §9.1: three bytes of a frame tag, a start code, then 14 bits for each side.
  if (hasAt(view, 12, 'VP8 ') && hasAt(view, 23, '\u009d\u0001\u002a'))
    return { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff }
  return undefined
}

function uint24(view: DataView, at: number): number {
  return view.getUint8(at) | (view.getUint8(at + 1) << 8) | (view.getUint8(at + 2) << 16)
}

/** ITU-T T.81 §B.1 and §B.2.2: marker segments up to the first frame header, which names the lines and samples. */
function readJpeg(view: DataView): Size | undefined {
  if (!hasAt(view, 0, '\u00ff\u00d8\u00ff')) return undefined
  let at = 2
  while (at + 9 <= view.byteLength) {
    if (view.getUint8(at) !== 0xff) return undefined
    const marker = view.getUint8(at + 1)
    const isFill = marker === 0xff
    const isAlone = marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)
    if (isFrame(marker)) return { height: view.getUint16(at + 5), width: view.getUint16(at + 7) }
    if (marker === 0xd9 || marker === 0xda) return undefined
    at += isFill ? 1 : isAlone ? 2 : 2 + view.getUint16(at + 2)
  }
  return undefined
}

/** SOF0 to SOF15; C4, C8 and CC have other meanings. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc
}

const formats = [
  { format: 'png', read: readPng },
  { format: 'jpeg', read: readJpeg },
  { format: 'gif', read: readGif },
  { format: 'webp', read: readWebp },
] as const
