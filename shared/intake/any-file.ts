/** Taking in a file of any kind that is known: the ways that need no waiting, and those that do. */
import { intakeFile } from './file.ts'
import type { Intake } from './taken.ts'
import { intakeWebArchive, isWebArchive } from './web-archive.ts'

/**
 * Takes in a file by its name's ending, or by how it begins where the ending says nothing.
 * @returns what was taken in, or a refusal with a sentence for the person; the file itself is never changed
 */
export async function intakeAnyFile(name: string, bytes: Uint8Array): Promise<Intake> {
  return isWebArchive(name, beginningOf(bytes)) ? intakeWebArchive(name, bytes) : intakeFile(name, bytes)
}

/** The first bytes of a file, each as the character of its number. */
function beginningOf(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes.subarray(0, 4096))
}
