/**
 * The parts of a MIME message (RFC 2045, RFC 2046). Headers and transfer encodings are read by a MIME library; what it does
 * not hand out, where each part of an aggregate begins and what stands in its header, is found here.
 */
import PostalMime, { decodeWords } from 'postal-mime'

export interface MimePart {
  /** Media type in lower case, without parameters. */
  readonly type: string
  /** Parameters of the media type, their names in lower case. */
  readonly parameters: ReadonlyMap<string, string>
  /** Fields of the header, their names in lower case, unfolded; the first of each name. */
  readonly fields: ReadonlyMap<string, string>
  /** The body as it was transferred. */
  readonly body: Uint8Array
}

export interface MimeMessage {
  readonly head: MimePart
  /** The parts that hold no others, in the order of the file. */
  readonly leaves: readonly MimePart[]
  /** A boundary that the header names stands nowhere in the body. */
  readonly lacksParts: boolean
  /** An aggregate has no last boundary: the file's end may be missing. */
  readonly lacksEnd: boolean
}

/** Parts within parts, and parts in all. Browsers write two levels and as many parts as the page has files. */
const maxDepth = 16
const maxParts = 20_000
const maxHeaderBytes = 256 * 1024

/**
 * Reads a message into its parts; broken ones are read as far as they go.
 * @returns undefined when there is no MIME header at the beginning, or when there are more parts, or parts within parts,
 *   than any program writes
 */
export async function maybeMimeMessage(bytes: Uint8Array): Promise<MimeMessage | undefined> {
  const signs = toSigns(bytes)
  const found = { leaves: [] as MimePart[], lacksParts: false, lacksEnd: false }
  const head = await maybePart(bytes, signs, 0, bytes.length)
  if (!head?.part.fields.has('content-type')) return undefined
  const waiting = [{ ...head, depth: 0 }]
  for (let one = waiting.pop(); one; one = waiting.pop()) {
    const { part, depth } = one
    const boundary = part.type.startsWith('multipart/') ? (part.parameters.get('boundary') ?? '') : undefined
    if (boundary === undefined) found.leaves.push(part)
    else {
      const { places, isEnded } = split(signs, boundary, one.bodyStart, one.end)
      if (places.length === 0) found.lacksParts = true
      else if (!isEnded) found.lacksEnd = true
      if (depth >= maxDepth || found.leaves.length + waiting.length + places.length > maxParts)
        return undefined
      const parts: (typeof waiting)[number][] = []
      for (const place of places) {
        const inner = await maybePart(bytes, signs, place.start, place.end)
        if (inner) parts.push({ ...inner, depth: depth + 1 })
      }
      waiting.push(...parts.reverse())
    }
  }
  return { head: head.part, ...found }
}

/** The body of a part, its transfer encoding (RFC 2045 §6) taken off. */
export async function decodeBody(part: MimePart): Promise<Uint8Array> {
  const encoding = part.fields.get('content-transfer-encoding')?.toLowerCase() ?? ''
  if (!/base64|quoted-printable/u.test(encoding)) return part.body
  const named = encoding.includes('base64') ? 'base64' : 'quoted-printable'
  // As an attachment of a type that it does not interpret, the library hands out the bytes alone.
  const header = `Content-Type: application/octet-stream\r\nContent-Disposition: attachment\r\nContent-Transfer-Encoding: ${named}\r\n\r\n`
  const message = new Uint8Array(header.length + part.body.length)
  for (let i = 0; i < header.length; i += 1) message[i] = header.charCodeAt(i)
  message.set(part.body, header.length)
  const { attachments } = await PostalMime.parse(message)
  const content = attachments[0]?.content
  return content instanceof ArrayBuffer ? new Uint8Array(content) : new Uint8Array(0)
}

/** A field that people read, its encoded words (RFC 2047) decoded. */
export function wordsOfField(part: MimePart, name: string): string | undefined {
  const value = part.fields.get(name)
  return value === undefined ? undefined : decodeWords(value)
}

interface Found {
  readonly part: MimePart
  readonly bodyStart: number
  readonly end: number
}

async function maybePart(
  bytes: Uint8Array,
  signs: string,
  start: number,
  end: number,
): Promise<Found | undefined> {
  const isHeaderless = signs.startsWith('\n', start) || signs.startsWith('\r\n', start)
  const blank = /\r?\n\r?\n/gu
  blank.lastIndex = start
  const line = isHeaderless ? null : blank.exec(signs)
  const isFound = line !== null && line.index < end
  const headEnd = isHeaderless ? start : isFound ? line.index : end
  const bodyStart = isHeaderless
    ? start + (signs[start] === '\r' ? 2 : 1)
    : isFound
      ? line.index + line[0].length
      : end
  if (headEnd - start > maxHeaderBytes) return undefined
  const fields = await readFields(bytes.subarray(start, headEnd))
  const type = fields.get('content-type') ?? 'text/plain'
  const part: MimePart = {
    type: type.split(';')[0]!.trim().toLowerCase(),
    parameters: readParameters(type),
    fields,
    body: bytes.subarray(Math.min(bodyStart, end), end),
  }
  return { part, bodyStart, end }
}

async function readFields(header: Uint8Array): Promise<Map<string, string>> {
  const fields = new Map<string, string>()
  if (header.length === 0) return fields
  const { headers } = await PostalMime.parse(header)
  for (const { key, value } of headers) if (!fields.has(key)) fields.set(key, value)
  return fields
}

/** RFC 2045 §5.1: `name=token` or `name="quoted"`; the first of each name counts. */
function readParameters(field: string): Map<string, string> {
  const parameters = new Map<string, string>()
  for (const [, name, quoted, token] of field.matchAll(
    /;\s*([^\s=;"]+)\s*=\s*(?:"((?:[^"\\]|\\.)*)"|([^\s;"]*))/gu,
  )) {
    const key = name!.toLowerCase()
    if (!parameters.has(key)) parameters.set(key, quoted?.replace(/\\(.)/gu, '$1') ?? token ?? '')
  }
  return parameters
}

interface Place {
  readonly start: number
  readonly end: number
}

/** RFC 2046 §5.1.1: a delimiter is a line of two hyphens and the boundary; the line end before it belongs to it. */
function split(
  signs: string,
  boundary: string,
  from: number,
  to: number,
): { readonly places: readonly Place[]; readonly isEnded: boolean } {
  const places: Place[] = []
  if (boundary === '') return { places, isEnded: false }
  const delimiter = `--${boundary}`
  let start = -1
  for (let at = signs.indexOf(delimiter, from); at >= 0 && at < to; at = signs.indexOf(delimiter, at + 1)) {
    if (at > from && signs[at - 1] !== '\n') continue
    const lineEnd = endOfLine(signs, at)
    const rest = signs.slice(at + delimiter.length, lineEnd)
    const isLast = /^--[ \t\r]*$/u.test(rest)
    // Another boundary may begin with this one.
    if (!isLast && !/^[ \t\r]*$/u.test(rest)) continue
    if (start >= 0) places.push({ start, end: Math.max(start, beforeLineEnd(signs, at)) })
    start = Math.min(lineEnd + 1, to)
    if (isLast) return { places, isEnded: true }
  }
  if (start >= 0) places.push({ start, end: to })
  return { places, isEnded: false }
}

function endOfLine(signs: string, at: number): number {
  const end = signs.indexOf('\n', at)
  return end < 0 ? signs.length : end
}

function beforeLineEnd(signs: string, at: number): number {
  return signs[at - 2] === '\r' ? at - 2 : at - 1
}

/** Each byte as the character of its number, so that places in the text are places in the bytes. */
function toSigns(bytes: Uint8Array): string {
  let signs = ''
  for (let at = 0; at < bytes.length; at += 8192)
    signs += String.fromCharCode(...bytes.subarray(at, at + 8192))
  return signs
}
