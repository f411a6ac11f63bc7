/** Taking in a file of any kind that is known, by what its bytes are; its name counts only where they do not say. */
import type { Bookmarks } from './bookmarks/link.ts'
import { maybeBookmarks } from './bookmarks/read.ts'
import { intakeFile } from './file.ts'
import { maybeManual } from './manual.ts'
import { intakePicture, isPictureFile } from './picture-file.ts'
import type { Refused, TakenIn } from './taken.ts'
import { intakeWebArchive, isWebArchive } from './web-archive.ts'

/** The answer about a file: one document, the many links of a file of bookmarks (`kind: 'bookmarks'`), or a refusal. */
export type FileIntake = TakenIn | Bookmarks | Refused

/** Told before each page of a paged document that is read: its place from 1 on, and how many there are. */
export type OnPage = (at: number, of: number) => void

/**
 * Takes in a file. Nothing in it is run or fetched, and the bytes are left as they are.
 * @returns what was taken in, or a refusal with a sentence for the person
 */
export async function intakeAnyFile(
  name: string,
  bytes: Uint8Array,
  _onPage: OnPage = () => undefined,
): Promise<FileIntake> {
  const beginning = beginningOf(bytes)
  if (isPictureFile(name, beginning)) return intakePicture(name, bytes)
  const bookmarks = maybeBookmarks(name, bytes)
  if (bookmarks) return bookmarks
  if (isWebArchive(name, beginning)) return intakeWebArchive(name, bytes)
  return maybeManual(name, bytes) ?? intakeFile(name, bytes)
}

/** The first bytes of a file, each as the character of its number. */
function beginningOf(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes.subarray(0, 4096))
}
