/** Exported journals for tests. */
import { sealedJournalFiles } from '../../../../../shared/journal/seal/files/export.ts'
import { SUMS, sumsText, type Files } from '../../../../../shared/journal/seal/files/layout.ts'
import { sha256Of, toUtf8 } from '../../../../../shared/journal/seal/canonical.ts'
import { toMoment } from '../../../../../shared/lab/moment.ts'
import type { Journal } from './scenario.ts'

export const made = toMoment(Date.UTC(2026, 10, 26, 8), 60)

/** A journal's files. @throws Error where it does not hold */
export function exportOf(journal: Journal, blobs: ReadonlyMap<string, Uint8Array> = new Map()) {
  const { project, seals, salts, records } = journal
  const title = 'The weather logger'
  const result = sealedJournalFiles({ project, title, seals, salts, records, blobs, made })
  if (!result.ok) throw new Error(result.sentence)
  return result.value
}

/** The same files with SHA256SUMS made anew, as a forger would. */
export function withSums(files: Files): Map<string, Uint8Array> {
  const sums = new Map([...files].map(([path, bytes]) => [path, sha256Of(bytes)]))
  sums.delete(SUMS)
  return new Map(files).set(SUMS, toUtf8(sumsText(sums)))
}

/** The same files with one bit of one of them flipped. */
export function withFlippedBit(files: Files, which: number, where: number, bit: number) {
  const paths = [...files.keys()]
  const path = paths[which % paths.length]!
  const bytes = Uint8Array.from(files.get(path)!)
  const at = where % bytes.length
  bytes[at] = bytes[at]! ^ (1 << (bit % 8))
  return { path, files: new Map(files).set(path, bytes) }
}
