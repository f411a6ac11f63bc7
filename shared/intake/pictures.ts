/** Pictures that come along with a page, as addresses that hold the picture itself (RFC 2397). */
import { maxPictureAddress } from './limits.ts'
import type { Picture } from './picture.ts'

/** Finds the picture that a page's `src` names: an address that holds it, undefined where it did not come along. */
export type Pictures = (src: string, base: string | undefined) => string | undefined

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'

/** The address; undefined for a picture of one pixel, which shows nothing, and for one that is too large to stand in a text. */
export function toPictureAddress(picture: Picture, bytes: Uint8Array): string | undefined {
  if (picture.width <= 1 || picture.height <= 1) return undefined
  const start = `data:${picture.mediaType};base64,`
  const length = start.length + Math.ceil(bytes.length / 3) * 4
  return length > maxPictureAddress ? undefined : start + toBase64(bytes)
}

/** RFC 4648 §4, with padding. */
export function toBase64(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i]!, bytes[i + 1], bytes[i + 2]]
    const bits = (a << 16) | ((b ?? 0) << 8) | (c ?? 0)
    text += letters[bits >> 18]! + letters[(bits >> 12) & 63]!
    text +=
      b === undefined ? '==' : letters[(bits >> 6) & 63]! + (c === undefined ? '=' : letters[bits & 63]!)
  }
  return text
}
