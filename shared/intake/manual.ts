/** Manual pages and info text: their sources (man(7), mdoc(7)), and as `man` and `info` show them. Plain or gzip. */
import type { RootContent } from 'mdast'
import { serialiseMarkdown } from '../export/serialise.ts'
import { isBinaryText, maybeBinaryKind } from './binary.ts'
import { toCleanText } from './clean-text.ts'
import { decodeText, type Decoded } from './decode.ts'
import { maxTextBytes } from './limits.ts'
import type { Found } from './manual/found.ts'
import { isGzip, maybeUnpacked } from './manual/gzip.ts'
import { maybeInfo, withoutMarks } from './manual/info.ts'
import { maybeRendered } from './manual/rendered.ts'
import { toReadText } from './overstrike.ts'
import { broken, tooLarge, type Intake, type TakenIn } from './taken.ts'
import { encodingNotes, titleOfName, toTitle } from './text.ts'

const manualName = /\.(?:(?:[0-9nlop][A-Za-z0-9_+-]*|man|mdoc|info(?:-\d+)?)\.gz)$/u

/**
 * Takes in a manual page or an info text by what stands in it; the name says only whether a compressed file that can't
 * be read was meant to be one.
 * @returns undefined for every other file; a refusal with a sentence where a page is broken or beyond all bounds
 */
export function maybeManual(name: string, bytes: Uint8Array): Intake | undefined {
  if (!isGzip(bytes)) return maybeOfText(name, bytes, 'plain')
  const isNamed = manualName.test(name)
  const unpacked = maybeUnpacked(bytes, maxTextBytes)
  if (unpacked.ok) return maybeOfText(name, unpacked.bytes, 'packed')
  if (!isNamed) return undefined
  return unpacked.code === 'too-large'
    ? tooLarge(name, unpacked.length, maxTextBytes)
    : broken(name, 'can’t be unpacked: its compressed bytes are damaged or cut off')
}

function maybeOfText(name: string, bytes: Uint8Array, _: 'plain' | 'packed'): Intake | undefined {
  if (bytes.length > maxTextBytes || maybeBinaryKind(bytes) !== undefined) return undefined
  const decoded = decodeText(bytes)
  if (isBinaryText(decoded.text)) return undefined
  const read = maybeShown(decoded)
  return read && toTaken(name, read.found, 'text/plain', read.notes)
}

interface Read {
  readonly found: Found
  readonly notes: readonly string[]
}

/** A page or an info text as a terminal or a printer shows it. */
function maybeShown(decoded: Decoded): Read | undefined {
  const clean = toCleanText(toReadText(withoutMarks(decoded.text)))
  const found = maybeRendered(clean.text) ?? maybeInfo(clean.text)
  return found && { found, notes: [...encodingNotes(decoded), ...clean.notes] }
}

function toTaken(name: string, found: Found, mediaType: string, notes: readonly string[]): TakenIn {
  return {
    ok: true,
    title: toTitle(found.title) || titleOfName(name),
    address: null,
    kind: 'manual',
    text: serialiseMarkdown({ type: 'root', children: found.content as RootContent[] }),
    mediaType,
    author: found.author,
    dated: found.dated,
    saved: null,
    pages: null,
    notes: [...notes, ...found.notes],
  }
}
