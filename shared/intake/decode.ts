/** From bytes to text: the byte order mark first, then what the page says, then UTF-8, then windows-1252. */

interface Decoder {
  readonly encoding: string
  decode(bytes: Uint8Array): string
}
/** Stands in every runtime that this program uses, but not in ECMAScript's own library. WHATWG Encoding Standard. */
const DecoderOfRuntime = (
  globalThis as unknown as { TextDecoder: new (label: string, options?: { fatal?: boolean }) => Decoder }
).TextDecoder

export interface Decoded {
  readonly text: string
  /** The encoding's name in the Encoding Standard. */
  readonly encoding: string
  /** Bytes that mean nothing in this encoding were replaced by U+FFFD. */
  readonly isDamaged: boolean
}

/** Decodes bytes; never fails. A byte order mark is taken off. */
export function decodeText(bytes: Uint8Array): Decoded {
  return maybeByMark(bytes) ?? maybeExact(bytes, 'utf-8') ?? loose(bytes, 'windows-1252')
}

/**
 * Decodes the bytes of an HTML page, which may name its own encoding (HTML standard, "prescan a byte stream").
 * @param known the encoding that was named when the page came; it counts more than the page's own (HTML standard,
 *   "encoding sniffing algorithm")
 */
export function decodeHtml(bytes: Uint8Array, known?: string): Decoded {
  const told = known !== undefined && isKnownEncoding(known) ? known.toLowerCase() : undefined
  const named = maybeByMark(bytes) === undefined ? (told ?? maybeNamedEncoding(bytes)) : undefined
  if (named === undefined) return decodeText(bytes)
  return maybeExact(bytes, named) ?? maybeExact(bytes, 'utf-8') ?? loose(bytes, named)
}

function maybeByMark(bytes: Uint8Array): Decoded | undefined {
  const [a, b, c] = bytes
  if (a === 0xef && b === 0xbb && c === 0xbf) return maybeExact(bytes, 'utf-8') ?? loose(bytes, 'utf-8')
  if (a === 0xff && b === 0xfe) return maybeExact(bytes, 'utf-16le') ?? loose(bytes, 'utf-16le')
  if (a === 0xfe && b === 0xff) return maybeExact(bytes, 'utf-16be') ?? loose(bytes, 'utf-16be')
  return undefined
}

function maybeExact(bytes: Uint8Array, encoding: string): Decoded | undefined {
  try {
    const text = new DecoderOfRuntime(encoding, { fatal: true }).decode(bytes)
    return { text: isWindows1252(encoding) ? withoutC1(text) : text, encoding, isDamaged: false }
  } catch {
    return undefined
  }
}

function loose(bytes: Uint8Array, encoding: string): Decoded {
  const decoded = new DecoderOfRuntime(encoding).decode(bytes)
  const text = isWindows1252(encoding) ? withoutC1(decoded) : decoded
  return { text, encoding, isDamaged: encoding !== 'windows-1252' && text.includes('\ufffd') }
}

/** The Encoding Standard reads pages that say ISO 8859-1 or ASCII as windows-1252. */
function isWindows1252(encoding: string): boolean {
  return new DecoderOfRuntime(encoding).encoding === 'windows-1252'
}

/** What windows-1252 has at 0x80 to 0x9f; some versions of Node read these bytes as ISO 8859-1. */
const windows1252 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ'

function withoutC1(text: string): string {
  return text.replace(/[\u0080-\u009f]/gu, (sign) => windows1252[sign.charCodeAt(0) - 0x80]!)
}

const prescannedBytes = 4096
const namedEncoding = /<meta[^>]+?charset\s*=\s*["']?\s*([A-Za-z0-9_:.-]+)/iu

/** The encoding that the page's head names, in lower case; undefined where none is named or none of that name is known. */
function maybeNamedEncoding(bytes: Uint8Array): string | undefined {
  let head = ''
  for (const byte of bytes.subarray(0, prescannedBytes)) head += String.fromCharCode(byte)
  const name = namedEncoding.exec(head)?.[1]?.toLowerCase()
  if (name === undefined || !isKnownEncoding(name)) return undefined
  // The declaration itself was read byte by byte, so it can't be in UTF-16; the standard takes it for UTF-8.
  return name.startsWith('utf-16') ? 'utf-8' : name
}

function isKnownEncoding(name: string): boolean {
  try {
    return new DecoderOfRuntime(name) !== undefined
  } catch {
    return false
  }
}
