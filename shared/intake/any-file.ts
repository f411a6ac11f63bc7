/** Taking in a file of any kind that is known, by what its bytes are; its name counts only where they do not say. */
import type { Bookmarks } from './bookmarks/link.ts'
import { maybeBookmarks } from './bookmarks/read.ts'
import { intakeFile } from './file.ts'
import { broken } from './taken.ts'
import { maybeBinaryKind } from './binary.ts'
import { maybeManual } from './manual.ts'
import { intakePdf, isPdf } from './pdf/intake.ts'
import type { PdfWays } from './pdf/open.ts'
import { intakePicture, isPictureFile } from './picture-file.ts'
import type { Refused, TakenIn } from './taken.ts'
import { intakeWebArchive, isWebArchive } from './web-archive.ts'

/** The answer about a file: one document, the many links of a file of bookmarks (`kind: 'bookmarks'`), or a refusal. */
export type FileIntake = TakenIn | Bookmarks | Refused

/**
 * Takes in a file. Nothing in it is run or fetched, and the bytes are left as they are.
 * @returns what was taken in, or a refusal with a sentence for the person
 */
export async function intakeAnyFile(
  name: string,
  bytes: Uint8Array,
  ways: PdfWays = {},
): Promise<FileIntake> {
  const beginning = beginningOf(bytes)
  if (isPdf(name, beginning)) return intakePdf(name, bytes, ways)
  if (isPictureFile(name, beginning)) return intakePicture(name, bytes)
  const bookmarks = maybeBookmarks(name, bytes)
  if (bookmarks) return bookmarks
  if (/\.pdf$/iu.test(name)) return broken(name, whyNoPdf(bytes))
  if (isWebArchive(name, beginning)) return intakeWebArchive(name, bytes)
  return maybeManual(name, bytes) ?? intakeFile(name, bytes)
}

function whyNoPdf(bytes: Uint8Array): string {
  const kind = maybeBinaryKind(bytes)?.replace(/ and not text$/u, '')
  return `is named as a PDF, but ${kind ?? 'does not begin as one'}`
}

/** The first bytes of a file, each as the character of its number. */
function beginningOf(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes.subarray(0, 4096))
}
