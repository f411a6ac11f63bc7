/**
 * Masking: each character of a secret is replaced by one of the same length (line ends stay), so that every position
 * around it keeps its meaning.
 */
import type { EntryFacts, Range } from '../lab/model.ts'
import { mapWords } from '../journal/seal/words.ts'

/** Stands for each character that was struck out: U+2588 FULL BLOCK, one UTF-16 code unit. */
export const MASK = '\u2588'

/** Shorter texts cannot be struck out: they would stand in every record by chance. UTF-16 code units. */
export const SHORTEST_STRIKE = 4

/**
 * Where in a text the secret's characters stand, in text order. Line ends stay out of it, and so do the blanks and quote
 * marks behind them: a secret of several lines is found where it was indented or set as a quotation, too.
 */
export function placesOfSecret(text: string, secret: string): Range[] {
  const pattern = patternOf(secret)
  const found: Range[] = []
  for (let match = pattern.exec(text); match; match = pattern.exec(text)) {
    pattern.lastIndex = match.index + 1
    let start = match.index
    for (const piece of match[0].split(/(\n[ \t>]*)/)) {
      if (piece !== '' && !piece.startsWith('\n')) addRange(found, { start, end: start + piece.length })
      start += piece.length
    }
  }
  const merged: Range[] = []
  for (const range of found.sort((a, b) => a.start - b.start)) addRange(merged, range)
  return merged
}

function patternOf(secret: string): RegExp {
  const lines = secret.split('\n').map((line) => line.replace(/[\\^$.*+?()[\]{}|/-]/g, '\\$&'))
  return new RegExp(lines.join('[ \\t]*\\n[ \\t>]*'), 'g')
}

function addRange(ranges: Range[], { start, end }: Range): void {
  const last = ranges.at(-1)
  if (last && last.start <= start && start <= last.end)
    ranges[ranges.length - 1] = { start: last.start, end: Math.max(end, last.end) }
  else ranges.push({ start, end })
}

/** A text with every occurrence of the secret masked. */
export function maskText(text: string, secret: string): string {
  return maskRanges(text, placesOfSecret(text, secret))
}

/** A text with each of the ranges masked. */
export function maskRanges(text: string, ranges: readonly Range[]): string {
  let masked = ''
  let at = 0
  for (const { start, end } of ranges) {
    masked += text.slice(at, start) + maskOf(text.slice(start, end))
    at = end
  }
  return masked + text.slice(at)
}

function maskOf(secret: string): string {
  return secret.replace(/[^\n]/g, MASK)
}

/**
 * Masks a secret at the edges too, where a text is a window cut out of a longer one (a selector's prefix and suffix):
 * a tail of the secret at its start, a head of it at its end, or a window that lies wholly within it.
 */
export function maskWindow(text: string, secret: string): string {
  if (text.length >= SHORTEST_STRIKE && secret.includes(text)) return maskOf(text)
  let masked = maskText(text, secret)
  for (let length = Math.min(secret.length - 1, masked.length); length >= SHORTEST_STRIKE; length--) {
    const tail = secret.slice(-length)
    if (masked.startsWith(tail)) masked = maskOf(tail) + masked.slice(length)
    const head = secret.slice(0, length)
    if (masked.endsWith(head)) masked = masked.slice(0, masked.length - length) + maskOf(head)
  }
  return masked
}

/** The fields of records that hold what a person wrote or read. All others are ours: ids, kinds, moments, digests. */
const wordFields: readonly string[] = [
  'title',
  'aim',
  'address',
  'text',
  'reason',
  'who',
  'name',
  'author',
  'dated',
  'remark',
  'tag',
  'tags',
  'notes',
  'pages',
  'aliases',
  'addresses',
  'serials',
  'disks',
  'place',
  'ran',
  'file',
  'facts',
  'says',
  'line',
  'help',
  'example',
  'preset',
  'carried',
  'rule',
  'words',
  'item',
  'steps',
  'parts',
  'parameters',
]

/** Fields of a version that hold records of other tables. */
const recordFields: readonly string[] = ['steps', 'parts', 'parameters']

const idOrDigest = /^([0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}|(\d+ )?[0-9a-f]{64})$/

/** Whether a text is an id, a digest or the head of a seal that was noted, in which a secret stands by chance only. */
function isIdOrDigest(text: string, secret: string): boolean {
  return text !== secret && idOrDigest.test(text)
}

/** A value with the secret masked in its words; ids and digests in it stay what they are. */
export function maskWords<T>(value: T, secret: string): T {
  return maskDeep(value, secret, (text) => isIdOrDigest(text, secret))
}

/** A record with the secret masked in the fields that hold words. The record itself where it held nothing. */
export function maskFields<T extends object>(record: T, secret: string): T {
  const old = record as Record<string, unknown>
  const masked = Object.entries(old).flatMap(([field, value]) => {
    if (!wordFields.includes(field)) return []
    const next = maskField(field, value, secret)
    return next === value ? [] : [[field, next] as const]
  })
  return masked.length === 0 ? record : { ...record, ...Object.fromEntries(masked) }
}

/** A date in the forms of ISO 8601 that sources state, with or without its time. */
const datePattern = /^\d{4}(-\d{2}(-\d{2}(T[\d:.]+(Z|[+-][\d:]+)?)?)?)?$/

function maskField(field: string, value: unknown, secret: string): unknown {
  // A secret such as 2026 stands in dates, moments and ids by chance; there it is none.
  if (field === 'dated' && typeof value === 'string' && datePattern.test(value)) return value
  // The facts of a draft are those of the entry that it will be, at the same places.
  if (field === 'facts' && typeof value === 'object' && value !== null)
    return mapWords('entries', value as EntryFacts, (words) => maskText(words, secret))
  if (recordFields.includes(field) && Array.isArray(value)) return maskRecords(value, secret)
  // The name of a rule of the review is ours; what a parameter asks for is the person's.
  if (field === 'rule' && typeof value === 'string') return value
  return field === 'place' || field === 'file' ? maskWords(value, secret) : maskDeep(value, secret)
}

function maskRecords(records: readonly unknown[], secret: string): readonly unknown[] {
  const masked = records.map((record) => {
    if (typeof record !== 'object' || record === null) return record
    if (!('part' in record)) return maskFields(record, secret)
    const { part } = record as { readonly part: object }
    const next = maskFields(part, secret)
    return next === part ? record : { ...record, part: next }
  })
  return masked.some((record, i) => record !== records[i]) ? masked : records
}

/**
 * Every string in a plain value, masked. The value itself where it held nothing. Typed arrays are left alone.
 * @param isLeft says of a string that it stays as it is
 */
export function maskDeep<T>(value: T, secret: string, isLeft?: (text: string) => boolean): T {
  if (typeof value === 'string') return (isLeft?.(value) ? value : maskText(value, secret)) as T
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value
  if (Array.isArray(value)) {
    const next = value.map((item: unknown) => maskDeep(item, secret, isLeft))
    return (next.some((item, i) => item !== value[i]) ? next : value) as T
  }
  const entries = Object.entries(value).map(
    ([key, item]) => [key, maskDeep<unknown>(item, secret, isLeft)] as const,
  )
  const old = value as Record<string, unknown>
  return entries.some(([key, item]) => item !== old[key]) ? (Object.fromEntries(entries) as T) : value
}

/** Whether bytes hold the secret as UTF-8 or as UTF-16 of either byte order, with line ends LF or CRLF. */
export function hasSecret(bytes: Uint8Array, secret: string, encode: (text: string) => Uint8Array): boolean {
  return [...new Set([secret, secret.replaceAll('\n', '\r\n')])]
    .flatMap((text) => [encode(text), toUtf16(text, true), toUtf16(text, false)])
    .some((wanted) => includesBytes(bytes, wanted))
}

function toUtf16(text: string, littleEndian: boolean): Uint8Array {
  const bytes = new Uint8Array(text.length * 2)
  const view = new DataView(bytes.buffer)
  for (let i = 0; i < text.length; i++) view.setUint16(i * 2, text.charCodeAt(i), littleEndian)
  return bytes
}

/** Whether one run of bytes stands in another. */
export function includesBytes(bytes: Uint8Array, wanted: Uint8Array): boolean {
  const first = wanted[0]
  if (first === undefined) return true
  for (let at = bytes.indexOf(first); at >= 0; at = bytes.indexOf(first, at + 1)) {
    let i = 1
    while (i < wanted.length && bytes[at + i] === wanted[i]) i++
    if (i === wanted.length) return true
  }
  return false
}
