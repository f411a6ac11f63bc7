/** Manual pages and info text: their sources (man(7), mdoc(7)), and as `man` and `info` show them. Plain or gzip. */
import type { Nodes, RootContent } from 'mdast'
import { serialiseMarkdown } from '../export/serialise.ts'
import { isBinaryText, maybeBinaryKind } from './binary.ts'
import { toCleanText } from './clean-text.ts'
import { decodeText, type Decoded } from './decode.ts'
import { maxTextBytes } from './limits.ts'
import { maxShownBytes, maxShownNodes, maxSourceBytes } from './manual/limits.ts'
import type { Found } from './manual/found.ts'
import { isGzip, maybeUnpacked } from './manual/gzip.ts'
import { maybeInfo, startsAsInfo, withoutMarks } from './manual/info.ts'
import { maybeRendered, startsAsRendered } from './manual/rendered.ts'
import { isRoffPage, maybePointer, readRoffPage } from './manual/roff/page.ts'
import { toReadText } from './overstrike.ts'
import { broken, empty, tooLarge, type Intake, type Refused, type TakenIn } from './taken.ts'
import { encodingNotes, titleOfName, toTitle } from './text.ts'

const manualName = /\.(?:(?:[0-9nlop][A-Za-z0-9_+-]*|man|mdoc|info(?:-\d+)?)\.gz)$/u

/**
 * Takes in a manual page or an info text by what stands in it; the name says only whether a compressed file that can't
 * be read was meant to be one.
 * @returns undefined for every other file; a refusal with a sentence where a page is broken or beyond all bounds
 */
export function maybeManual(name: string, bytes: Uint8Array): Intake | undefined {
  if (!isGzip(bytes)) return maybeOfText(name, bytes)
  const isNamed = manualName.test(name)
  const unpacked = maybeUnpacked(bytes, maxTextBytes)
  if (unpacked.ok) return maybeOfText(name, unpacked.bytes)
  if (!isNamed) return undefined
  return unpacked.code === 'too-large'
    ? tooLarge(name, unpacked.length, maxTextBytes)
    : broken(name, 'can’t be unpacked: its compressed bytes are damaged or cut off')
}

function maybeOfText(name: string, bytes: Uint8Array): Intake | undefined {
  if (bytes.length > maxTextBytes || maybeBinaryKind(bytes) !== undefined) return undefined
  const decoded = decodeText(bytes)
  if (isBinaryText(decoded.text)) return undefined
  if (isRoffPage(decoded.text))
    return bytes.length > maxSourceBytes
      ? tooLarge(name, bytes.length, maxSourceBytes)
      : ofSource(name, decoded)
  const target = maybePointer(decoded.text)
  if (target !== undefined) return pointsElsewhere(name, target)
  const read = bytes.length > maxShownBytes ? undefined : maybeShown(decoded)
  return read && toTaken(name, read.found, 'text/plain', read.notes)
}

/** RFC 4263 registers the media type of roff. */
function ofSource(name: string, decoded: Decoded): Intake {
  const clean = toCleanText(decoded.text)
  const read = readRoffPage(clean.text)
  if (!read.ok) return tooMuch(name)
  const notes = [...encodingNotes(decoded), ...clean.notes]
  return read.found.content.length === 0 ? empty(name) : toTaken(name, read.found, 'text/troff', notes)
}

function tooMuch(name: string): Refused {
  const sentence = `“${name}” is the source of a manual page that runs in circles or asks for more than any page needs, so it was not read to its end. The file is unchanged, and nothing was added: take in what “man” prints of it instead.`
  return { ok: false, code: 'broken', sentence }
}

function pointsElsewhere(name: string, target: string): Refused {
  const sentence = `“${name}” holds no page of its own and only points to “${target}”. The file is unchanged, and nothing was added: take in that page instead.`
  return { ok: false, code: 'empty', sentence }
}

interface Read {
  readonly found: Found
  readonly notes: readonly string[]
}

/** Most files are neither, so only their beginnings are looked at. */
const looked = 20_000

/** A page or an info text as a terminal or a printer shows it. */
function maybeShown(decoded: Decoded): Read | undefined {
  const beginning = toCleanText(toReadText(withoutMarks(decoded.text.slice(0, looked)))).text
  if (!startsAsRendered(beginning) && !startsAsInfo(beginning)) return undefined
  const clean = toCleanText(toReadText(withoutMarks(decoded.text)))
  const found = maybeRendered(clean.text) ?? maybeInfo(clean.text)
  if (!found || countNodes(found.content) > maxShownNodes) return undefined
  return { found, notes: [...encodingNotes(decoded), ...clean.notes] }
}

/** Counts level by level, so that no depth is too deep. */
function countNodes(content: readonly RootContent[]): number {
  let count = 0
  for (let level: readonly Nodes[] = content; level.length > 0;) {
    count += level.length
    level = level.flatMap((node): readonly Nodes[] => ('children' in node ? node.children : []))
  }
  return count
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
    pages: [],
    notes: [...notes, ...found.notes],
  }
}
