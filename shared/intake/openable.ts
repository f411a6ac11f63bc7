/**
 * Which original bytes may be opened in another program: kinds that cannot run, told by the bytes and never by a name.
 *
 * A text is opened as `.txt`. Even so, a system that looks into a file may find markup, a script or a starter in it and run
 * that instead, so a text that begins like one of these is none here. Where they are looked for follows the WHATWG MIME
 * Sniffing Standard §7.1 (markup after white space) and the freedesktop.org Shared MIME-info Database (within 256 bytes).
 */
import { isBinaryText, maybeBinaryKind } from './binary.ts'
import { decodeText } from './decode.ts'
import { maybePicture } from './picture.ts'

export interface Openable {
  /** The ending that a file of this kind gets, with its dot. */
  readonly ending: '.pdf' | '.png' | '.jpg' | '.gif' | '.webp' | '.txt'
  /** Media type (RFC 6838). */
  readonly mediaType: string
}

/** The kind in which these bytes may be opened; undefined for all that could run and for all that is not known. */
export function maybeOpenable(bytes: Uint8Array): Openable | undefined {
  if (isPdf(bytes)) return { ending: '.pdf', mediaType: 'application/pdf' }
  const picture = maybePicture(bytes)
  if (picture !== undefined) return { ending: pictureEndings[picture.format], mediaType: picture.mediaType }
  return isPlainText(bytes) ? { ending: '.txt', mediaType: 'text/plain; charset=utf-8' } : undefined
}

const pictureEndings = { png: '.png', jpeg: '.jpg', gif: '.gif', webp: '.webp' } as const

/** ISO 32000-1 §7.5.2: the header is the first line. Files with something before it are left to others. */
function isPdf(bytes: Uint8Array): boolean {
  return [0x25, 0x50, 0x44, 0x46, 0x2d].every((byte, at) => bytes[at] === byte)
}

/** So far into a text, in UTF-16 code units, systems look for what it is. */
const lookedAt = 512

function isPlainText(bytes: Uint8Array): boolean {
  if (bytes.byteLength === 0 || maybeBinaryKind(bytes) !== undefined || bytes.includes(0)) return false
  const { text, encoding, isDamaged } = decodeText(bytes)
  return encoding === 'utf-8' && !isDamaged && !isBinaryText(text) && !isRunnable(text.trimStart())
}

/** A script or a starter by its first signs, PostScript and RTF, which are programs or office files written as text. */
const runnableStart = /^(?:#!|%!|\{\\rtf|<[a-z!?/%]|@echo\b|\/bin\/|\[(?:desktop entry|internetshortcut)\])/iu
/** Markup, a starter or a message with parts, wherever in the beginning it stands. */
const runnableSign =
  /<(?:!doctype|\?xml|\?php|html|head|body|title|script|iframe|svg)\b|^\[(?:desktop entry|internetshortcut)\]|^mime-version:/imu

function isRunnable(text: string): boolean {
  const beginning = text.slice(0, lookedAt)
  return runnableStart.test(beginning) || runnableSign.test(beginning)
}

/** Words for a name of a file that other programs are given: letters, digits, spaces and hyphens, at most 40 of them. */
export function plainFileWords(name: string): string {
  const base = name.replace(/^.*[/\\]/u, '').replace(/\.[A-Za-z0-9]{1,8}$/u, '')
  const words = base.normalize('NFC').replace(/[^\p{L}\p{N}]+/gu, ' ')
  return Array.from(words.trim()).slice(0, 40).join('').trim().replaceAll(' ', '-') || 'original'
}

/** Why bytes are not opened, for the person. */
export function notOpenable(name: string): string {
  return (
    `“${name}” is not opened in another program: by its bytes it is neither a PDF, a picture nor plain text in UTF-8, and other kinds could run something. ` +
    'The original is kept and unchanged. Read its text here, or save the original to a file and decide there.'
  )
}
