/** Canonical JSON (RFC 8785) and SHA-256 (FIPS 180-4), both without waiting, so that they fit into a transaction. */
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import canonicalize from 'canonicalize'

/** A value as JSON knows it. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json }

/**
 * The canonical form of a value (RFC 8785): names sorted by UTF-16 code units, no white space, numbers as ECMAScript
 * writes them.
 * @throws RangeError for what has no such form: NaN, infinities, lone surrogates (§3.2.2.2), values that are no JSON
 */
export function canonicalJson(value: Json): string {
  let text: string | undefined
  try {
    text = canonicalize(value)
  } catch (error) {
    throw new RangeError('this has no canonical form', { cause: error })
  }
  if (text === undefined || hasLoneSurrogate(text)) throw new RangeError('this has no canonical form')
  return text
}

/** JSON.stringify writes a lone surrogate as `\\udXXX`, and no other character above U+001F as an escape. */
function hasLoneSurrogate(json: string): boolean {
  return /(?<!\\)(?:\\\\)*\\ud[89a-f][0-9a-f]{2}/.test(json)
}

/** UTF-8 (RFC 3629). A lone surrogate becomes U+FFFD. */
export function toUtf8(text: string): Uint8Array {
  return utf8ToBytes(text)
}

/** SHA-256 of bytes, or of a text's UTF-8, in lower-case hex. */
export function sha256Of(content: Uint8Array | string): string {
  return bytesToHex(sha256(typeof content === 'string' ? toUtf8(content) : content))
}

/** Bytes in lower-case hex. */
export function toHex(bytes: Uint8Array): string {
  return bytesToHex(bytes)
}

/** TextDecoder stands in every runtime that this program uses, but not in ECMAScript's own library. */
const utf8 = new (
  globalThis as unknown as {
    TextDecoder: new (label: string, options: object) => { decode(bytes: Uint8Array): string }
  }
).TextDecoder('utf-8', { ignoreBOM: true })

/** Reads UTF-8. What is none becomes U+FFFD. */
export function fromUtf8(bytes: Uint8Array): string {
  return utf8.decode(bytes)
}
