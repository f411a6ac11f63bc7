/**
 * Striking out: taking a text away for good from every record that held it. Each of its characters is replaced by a
 * mask of the same length (line ends stay), so that every position in change sets and selectors keeps its meaning.
 * What remains is place, length and the fact.
 */
import type { Operation } from '../lab/change.ts'
import type { RevisionId } from '../lab/ids.ts'
import type { ChangeSetJson, Link, LinkEnd, Piece, Revision } from '../lab/model.ts'
import { changeText, insertedBy } from '../lab/text.ts'
import { advancePieces, locatePieces, slicePieces } from '../provenance/pieces.ts'
import { makeSelector, occurrencesOf } from '../provenance/selectors.ts'

/** Stands for each character that was struck out: U+2588 FULL BLOCK, one UTF-16 code unit. */
export const MASK = '\u2588'

/** Shorter texts cannot be struck out: they would stand in every record by chance. UTF-16 code units. */
export const SHORTEST_STRIKE = 4

/** A text with every occurrence of the secret masked. */
export function maskText(text: string, secret: string): string {
  return text.includes(secret) ? text.split(secret).join(maskOf(secret)) : text
}

function maskOf(secret: string): string {
  return secret.replace(/[^\n]/g, MASK)
}

/**
 * Masks a secret at the edges too, where a text is a window cut out of a longer one (a selector's prefix and suffix):
 * a tail of the secret at its start, a head of it at its end.
 */
export function maskWindow(text: string, secret: string): string {
  let masked = maskText(text, secret)
  for (let length = Math.min(secret.length - 1, masked.length); length >= SHORTEST_STRIKE; length--) {
    const tail = secret.slice(-length)
    if (masked.startsWith(tail)) masked = maskOf(tail) + masked.slice(length)
    const head = secret.slice(0, length)
    if (masked.endsWith(head)) masked = masked.slice(0, masked.length - length) + maskOf(head)
  }
  return masked
}

/** Every string in a plain value, masked. The value itself where it held nothing. Typed arrays are left alone. */
export function maskDeep<T>(value: T, secret: string): T {
  if (typeof value === 'string') return maskText(value, secret) as T
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value
  if (Array.isArray(value)) {
    const next = value.map((item: unknown) => maskDeep(item, secret))
    return (next.some((item, i) => item !== value[i]) ? next : value) as T
  }
  const entries = Object.entries(value).map(([key, item]) => [key, maskDeep<unknown>(item, secret)] as const)
  const old = value as Record<string, unknown>
  return entries.some(([key, item]) => item !== old[key]) ? (Object.fromEntries(entries) as T) : value
}

/**
 * One node's revisions with the secret masked, also where it was typed across several revisions: the characters are
 * found by identity in every state that held the secret, and masked where they were typed or brought back.
 * @returns the revisions that differ from before
 */
export function strikeRevisions(revisions: readonly Revision[], secret: string): Revision[] {
  const struck = struckPieces(revisions, secret)
  if (struck.length === 0) return []
  return revisions.flatMap((revision) => {
    const changeSet = maskInserted(revision, struck)
    return changeSet ? [{ ...revision, changeSet }] : []
  })
}

/** The identities of all characters that ever stood in the secret, in any state of the text. */
function struckPieces(revisions: readonly Revision[], secret: string): Piece[] {
  const struck: Piece[] = []
  let text = ''
  let pieces: Piece[] = []
  for (const { changeSet, id, restores } of revisions) {
    text = changeText(text, changeSet)
    pieces = advancePieces(pieces, changeSet, id, restores)
    for (const place of occurrencesOf(text, secret, Infinity)) struck.push(...slicePieces(pieces, place))
  }
  return struck
}

function maskInserted(revision: Revision, struck: readonly Piece[]): ChangeSetJson | null {
  const inserted = insertedBy(revision.changeSet)
  const own = [{ revision: revision.id, start: 0, end: inserted.length }]
  const places = locatePieces(revision.restores ?? own, struck)
  if (places.length === 0) return null
  const characters = inserted.split('')
  for (const { start, end } of places)
    for (let i = start; i < end; i++) if (characters[i] !== '\n') characters[i] = MASK
  return withInserted(revision.changeSet, characters.join(''))
}

/** The same change set with other inserted characters, equally many. */
function withInserted(changeSet: ChangeSetJson, inserted: string): ChangeSetJson {
  let at = 0
  return changeSet.map((part) => {
    if (typeof part === 'number' || part.length < 2) return part
    const [deleted, ...lines] = part
    const length = lines.join('\n').length
    const next = inserted.slice(at, at + length)
    at += length
    return [deleted, ...next.split('\n')] as const
  })
}

/**
 * A stored operation with the secret masked. Change sets are taken from the struck revisions, since a secret typed
 * across several of them stands whole in none; links from whoever knows the texts that they quote.
 */
export function strikeOperation(
  operation: Operation,
  secret: string,
  struckRevisions: ReadonlyMap<RevisionId, Revision>,
  strikeLink: (link: Link) => Link,
): Operation {
  if (operation.op === 'text') {
    const struck = struckRevisions.get(operation.toRevision)
    return struck ? { ...operation, changeSet: struck.changeSet } : operation
  }
  if (operation.table !== 'links') return maskDeep(operation, secret)
  if (operation.op === 'remove') return { ...operation, before: strikeLink(operation.before) }
  return { ...operation, record: strikeLink(operation.record) }
}

/** A link's end whose text cannot be read any more: its quotes are masked as far as they show the secret. */
export function maskEnd(end: LinkEnd, secret: string): LinkEnd {
  const ranges = end.ranges.map(({ quote, position }) => ({
    position,
    quote: {
      ...quote,
      exact: maskWindow(quote.exact, secret),
      prefix: maskWindow(quote.prefix, secret),
      suffix: maskWindow(quote.suffix, secret),
    },
  }))
  return { ...end, ranges }
}

/**
 * A link's end with its quotes read anew from the masked text that they were taken from.
 * @param text the node's text at the end's revision, masked
 */
export function strikeEnd(end: LinkEnd, text: string): LinkEnd {
  const ranges = end.ranges.map(({ position }) => makeSelector(text, position))
  return { ...end, ranges }
}

/** Whether bytes hold the secret as UTF-8 or as UTF-16 of either byte order. */
export function hasSecret(bytes: Uint8Array, secret: string, encode: (text: string) => Uint8Array): boolean {
  return [encode(secret), toUtf16(secret, true), toUtf16(secret, false)].some((wanted) =>
    includesBytes(bytes, wanted),
  )
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
