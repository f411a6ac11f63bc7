/**
 * A sealed journal as files that whoever gets them can check with sha256sum and a text editor.
 *
 *   README.txt          what this is, how to check it, what that proves and what not
 *   journal.md          the journal in reading order, made from the files below
 *   seals/<number>.json one body each, exactly the bytes that are hashed
 *   texts/<digest>.txt  the salt, the words, each with a line feed: the bytes whose SHA-256 stands in the seal
 *   blobs/<SHA-256>     pictures and binary files
 *   HEAD.txt            number and SHA-256 of the last seal
 *   check.sh            the same checks as a POSIX shell script
 *   SHA256SUMS          a SHA-256 (FIPS 180-4) for every other file
 */
import type { ProjectId } from '../../../lab/ids.ts'
import type { Moment } from '../../../lab/moment.ts'
import { succeed, type Failure, type Result } from '../../../lab/result.ts'
import { sha256Of, toUtf8 } from '../canonical.ts'
import { holdersOf, readChain } from '../chain.ts'
import { checkSeals, saltsBySeal } from '../check.ts'
import type { JournalRecords, Seal, SealSalts } from '../model.ts'
import { Standing } from '../standing.ts'
import { blobsOfSeals } from '../blobs.ts'
import { NO_SEAL, saltedWords } from '../seal.ts'
import { journalText } from './journal-text.ts'
import { blobPath, HEAD, JOURNAL, README, SCRIPT, SUMS, sealPath, sumsText, textPath } from './layout.ts'
import { readMe } from './read-me.ts'
import { checkScript } from './script.ts'

/** All that an export is made of. */
export interface SealedJournal {
  readonly project: ProjectId
  readonly title: string
  readonly seals: readonly Seal[]
  readonly salts: readonly SealSalts[]
  readonly records: JournalRecords
  /** The bytes of what `blobsOfSeals` names, by SHA-256; what a strike emptied is left out. */
  readonly blobs: ReadonlyMap<string, Uint8Array>
  /** When the export is made. */
  readonly made: Moment
}

/**
 * Writes a sealed journal as files. A journal that does not match its seals is not exported as a sealed one.
 * The same journal gives the same bytes, but for `made`.
 */
export function sealedJournalFiles(
  journal: SealedJournal,
): Result<Map<string, Uint8Array>, Failure<'broken'>> {
  const held = checkSeals(journal.seals, journal.salts, journal.records)
  if (!held.ok) return { ok: false, code: 'broken', sentence: `Nothing was exported. ${held.sentence}` }
  const files = new Map<string, Uint8Array>()
  for (const { number, body } of journal.seals) files.set(sealPath(number), toUtf8(body))
  addTexts(files, journal)
  addBlobs(files, journal)
  const bodies = readChain(journal.seals).read.flatMap(({ body }) => body ?? [])
  const text = journalText(bodies, files)
  if (text === null) throw new Error('a journal that holds lacks a text')
  files.set(JOURNAL, toUtf8(text))
  files.set(HEAD, toUtf8(`${held.head?.number ?? 0} ${held.head?.hash ?? NO_SEAL}\n`))
  files.set(SCRIPT, toUtf8(checkScript))
  files.set(README, toUtf8(readMe(journal, held)))
  const sums = new Map([...files].map(([path, bytes]) => [path, sha256Of(bytes)]))
  return succeed(files.set(SUMS, toUtf8(sumsText(sums))))
}

/** One file for each digest that holds; those whose salt is gone have none. */
function addTexts(files: Map<string, Uint8Array>, { seals, salts, records }: SealedJournal): void {
  const { read } = readChain(seals)
  const known = saltsBySeal(salts)
  const standing = new Standing(records, read)
  for (const { root, number, place, sha256 } of holdersOf(read).current.values()) {
    const salt = known.get(read[number - 1]!.seal.id)?.[place] ?? ''
    files.set(textPath(sha256), toUtf8(saltedWords(salt, standing.wordsAt(root.number, root.field) ?? '')))
  }
}

function addBlobs(files: Map<string, Uint8Array>, { seals, blobs }: SealedJournal): void {
  for (const sha256 of blobsOfSeals(seals)) {
    const bytes = blobs.get(sha256)
    // Bytes that are not those that were named would only break the folder's own check.
    if (bytes && sha256Of(bytes) === sha256) files.set(blobPath(sha256), bytes)
  }
}
