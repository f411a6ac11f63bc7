/** Original bytes on their way to another program: in a folder of the person's own, until the next start. */
import { randomBytes } from 'node:crypto'
import { chmod, mkdir, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { plainFileWords, type Openable } from '../shared/intake/openable.ts'

/** Writes bytes as a file of the kind that they were found to be, and gives its path. The name is made anew. */
export async function writeOriginal(
  folder: string,
  bytes: Uint8Array,
  name: string,
  openable: Openable,
): Promise<string> {
  await mkdir(folder, { recursive: true, mode: 0o700 })
  // A folder that was there already keeps the mode that it had.
  await chmod(folder, 0o700)
  const path = join(folder, `${plainFileWords(name)}-${randomBytes(4).toString('hex')}${openable.ending}`)
  await writeFile(path, bytes, { mode: 0o600, flag: 'wx' })
  return path
}

/** Removes what was opened in former runs. What another program still holds open may stay until the next start. */
export async function emptyOriginals(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true }).catch(() => undefined)
}
