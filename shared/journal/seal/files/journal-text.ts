/**
 * journal.md: what an export's seals and texts say, in their order. Made from nothing else, so that whoever checks the
 * folder can make it anew and compare; check.sh does so in shell, byte for byte.
 */
import { MASK } from '../../../safety/mask.ts'
import { canonicalJson, type Json } from '../canonical.ts'
import { digestsIn, takenIn, type SealedTaken } from '../chain.ts'
import type { SealBody } from '../model.ts'
import { findAt } from '../words.ts'
import { blobPath, textPath, wordsIn, type Files } from './layout.ts'

/** The text that holds since a strike, by the digest that can be checked no more. */
export type Struck = ReadonlyMap<string, { readonly by: number; readonly now: string }>

export function struckIn(bodies: readonly SealBody[]): Struck {
  return new Map(
    bodies.flatMap((body) =>
      takenIn(body).map(({ gone, now }) => [gone, { by: body.number, now: now.sha256 }] as const),
    ),
  )
}

/** @returns null where a text is missing that no strike names, or shows no mark though one does */
export function journalText(bodies: readonly SealBody[], files: Files): string | null {
  const struck = struckIn(bodies)
  const entries = new Map(
    bodies.flatMap(({ of, number }) => (of.table === 'entries' ? [[of.id, number] as const] : [])),
  )
  const sections: string[] = []
  for (const body of bodies) {
    const texts = maybeTexts(body, files, struck)
    if (texts === null) return null
    sections.push(`${headingOf(body, entries, files).join('\n')}\n\n${texts}`)
  }
  return `# Journal\n\nThis is what the seals and the texts beside it say, in their order.\n\n${sections.join('')}`
}

type Numbers = ReadonlyMap<string, number>

function headingOf(body: SealBody, entries: Numbers, files: Files): string[] {
  const { number, of, record, late, sealed } = body
  const at = (place: string): string => String(findAt(record, place))
  const refer = (word: string, place: string): string =>
    `${word} ${entries.get(at(place)) ?? 'without a seal'}`
  const lateLine = late ? [`- Sealed late: ${sealed}`] : []
  const begin = `## ${number}. `
  switch (of.table) {
    case 'entries':
      return [
        `${begin}Entry: ${at('kind')}, ${at('moment')}`,
        ...entryFacts(record, refer, files),
        ...lateLine,
      ]
    case 'revisions':
      return [
        `${begin}Amendment of ${refer('entry', 'node')}, ${at('moment')}`,
        ...blobLines(findAt(record, 'blobs'), files),
        ...lateLine,
      ]
    case 'withdrawals': {
      const does = findAt(record, 'withdrawn') === true ? 'withdrawn' : 'brought back'
      return [`${begin}${refer('Entry', 'entry')} ${does}, ${at('moment')}`, ...lateLine]
    }
    case 'marks':
      return [
        `${begin}Set on ${refer('entry', 'entry')}, ${at('moment')}`,
        `- Says: ${canonicalJson(findAt(record, 'says') as Json)}`,
        ...lateLine,
      ]
    case 'strikes':
      return [
        `${begin}Struck out, ${at('moment')}`,
        ...(findAt(record, 'emptied') as readonly string[]).map((sha256) => `- Emptied: ${sha256}`),
        ...takenIn(body).map(({ seal, field }: SealedTaken) => `- In seal ${seal}: ${field}`),
        ...lateLine,
      ]
  }
}

function entryFacts(record: unknown, refer: (word: string, place: string) => string, files: Files): string[] {
  const line = (name: string, place: string): string[] => {
    const value = findAt(record, place)
    return typeof value === 'string' || typeof value === 'number' ? [`- ${name}: ${value}`] : []
  }
  const blob = findAt(record, 'file.blob')
  const named = findAt(record, 'revision.blobs')
  return [
    ...line('Happened', 'happened'),
    ...(typeof findAt(record, 'under') === 'string' ? [`- Under: ${refer('entry', 'under')}`] : []),
    ...line('Exit code', 'ran.exitCode'),
    ...line('Started', 'ran.started'),
    ...line('Ended', 'ran.ended'),
    ...(named === undefined ? [] : blobLines(typeof blob === 'string' ? [blob] : [], files)),
    ...blobLines(named, files),
  ]
}

function blobLines(named: unknown, files: Files): string[] {
  const blobs = Array.isArray(named) ? (named as readonly string[]) : []
  return blobs.map((sha256) =>
    files.has(blobPath(sha256))
      ? `- Picture or file: ${blobPath(sha256)}`
      : `- Picture or file: ${sha256}, not in this folder`,
  )
}

/** The words of a record, each under the name of its field. */
function maybeTexts(body: SealBody, files: Files, struck: Struck): string | null {
  const parts: string[] = []
  for (const [place, sha256] of digestsIn(body.record)) {
    const name = place.split('.').at(-1)!
    if (body.of.table === 'strikes' && name === 'now') continue
    const { file, by } = resolveText(sha256, files, struck)
    const words = file && wordsIn(file)
    if (words === undefined || (by.length > 0 && !words.includes(MASK))) return null
    const before = body.of.table === 'marks' && place.includes('.was.') ? ' before' : ''
    const how = by.length > 0 ? `, struck out in part by ${by.map((seal) => `seal ${seal}`).join(', ')}` : ''
    parts.push(`${name}${before}${how}:\n\n${indented(words)}\n`)
  }
  return parts.join('')
}

function resolveText(
  sha256: string,
  files: Files,
  struck: Struck,
): { file: Uint8Array | undefined; by: number[] } {
  const by: number[] = []
  let digest = sha256
  // No digest is gone twice, so this ends; the size bounds it where somebody forged a circle.
  for (let left = struck.size; !files.has(textPath(digest)) && left > 0; left--) {
    const strike = struck.get(digest)
    if (!strike) break
    by.push(strike.by)
    digest = strike.now
  }
  return { file: files.get(textPath(digest)), by }
}

/** As a code block of CommonMark, so that no word can pass for a heading of this file. */
function indented(words: string): string {
  return words
    .split('\n')
    .map((line) => `    ${line}\n`)
    .join('')
}
