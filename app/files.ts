/** Files that the person chooses: saving and opening through the system's own dialogs. */
import { open, readFile, rename, rm, stat } from 'node:fs/promises'
import { randomBytes } from 'node:crypto'
import { basename, dirname, extname, join } from 'node:path'
import { app, dialog, type BrowserWindow } from 'electron'
import {
  done,
  failed,
  refusedFile,
  type HostAnswer,
  type HostArgument,
  type HostResult,
  type OpenedFile,
} from '../shared/host.ts'

/** Asks where to, then writes the bytes there whole or not at all. */
export async function saveFile(
  window: BrowserWindow,
  argument: HostArgument<'saveFile'>,
): Promise<HostResult<HostAnswer<'saveFile'>>> {
  const ending = extname(argument.suggestedName).slice(1)
  const chosen = await dialog.showSaveDialog(window, {
    defaultPath: join(app.getPath('documents'), argument.suggestedName),
    filters: ending === '' ? [] : [{ name: ending.toUpperCase(), extensions: [ending] }],
  })
  if (chosen.canceled || chosen.filePath === undefined || chosen.filePath === '')
    return done({ kind: 'cancelled' })
  try {
    await writeWhole(chosen.filePath, argument.bytes)
    return done({ kind: 'saved', name: basename(chosen.filePath) })
  } catch (error) {
    return failed('not written', toSentence(`“${basename(chosen.filePath)}” could not be written`, error))
  }
}

/** Lets the person choose files and reads those that are within the limit. */
export async function openFiles(
  window: BrowserWindow,
  argument: HostArgument<'openFiles'>,
): Promise<HostResult<HostAnswer<'openFiles'>>> {
  const chosen = await dialog.showOpenDialog(window, {
    properties: argument.multiple ? ['openFile', 'multiSelections'] : ['openFile'],
    filters:
      argument.accept.length === 0
        ? []
        : [{ name: 'Files', extensions: argument.accept.map((ending) => ending.slice(1)) }],
  })
  if (chosen.canceled) return done({ kind: 'cancelled' })
  try {
    const files: OpenedFile[] = []
    for (const path of chosen.filePaths) files.push(await readWithin(path, argument.limitBytes))
    return done({ kind: 'opened', files })
  } catch (error) {
    return failed('not read', toSentence('A file could not be read', error))
  }
}

/**
 * Writes beside the target first and renames over it once the bytes are on the disk, so that a crash or a full disk
 * leaves either the old file or the new one, never half of one.
 */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const beside = join(
    dirname(path),
    `.${basename(path).slice(0, 100)}.${randomBytes(6).toString('hex')}.part`,
  )
  try {
    const file = await open(beside, 'wx', 0o644)
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(beside, path)
  } catch (error) {
    await rm(beside, { force: true })
    throw error
  }
}

/** Reads a file, or says that it is larger than the limit (bytes) without reading it. */
export async function readWithin(path: string, limit: number): Promise<OpenedFile> {
  const name = basename(path)
  const { size } = await stat(path)
  if (size > limit) return refusedFile(name, size, limit)
  const read = await readFile(path)
  // A file can grow between the two looks; and a plain copy keeps Node's pooled memory out of the message.
  if (read.byteLength > limit) return refusedFile(name, read.byteLength, limit)
  return { kind: 'read', name, bytes: new Uint8Array(read) }
}

function toSentence(what: string, error: unknown): string {
  const reason = error instanceof Error && 'code' in error ? String(error.code) : String(error)
  const known: Record<string, string> = {
    ENOSPC: 'the disk is full',
    EACCES: 'this place may not be used by you',
    EPERM: 'this place may not be used by you',
    EROFS: 'this place can only be read',
    ENOENT: 'it is not there any more',
    EISDIR: 'it is a folder',
  }
  return `${what}: ${known[reason] ?? `the system answered ${reason}`}. Nothing in the lab was changed. Choose another place or file.`
}
