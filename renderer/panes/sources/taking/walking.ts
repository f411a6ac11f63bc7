/** The files in folders that were dropped, found by the File and Directory Entries API, which Chromium has. */
import {
  boundNotes,
  compareNames,
  folderBounds,
  isCompanionFolder,
  isHiddenName,
} from '../../../../shared/intake/folder-rules.ts'

export interface FoundFile {
  readonly file: File
  /** Names of the folders that it lies in, the outermost first. */
  readonly directories: readonly string[]
}

export interface Walked {
  readonly files: readonly FoundFile[]
  /** Sentences about what was left out. */
  readonly notes: readonly string[]
}

/** The entries of a drop where one of them is a folder. To be called while the drop is told of; null where none is. */
export function maybeEntries(items: DataTransferItemList): readonly FileSystemEntry[] | null {
  const entries = Array.from(items).flatMap((item) => item.webkitGetAsEntry() ?? [])
  return entries.some((entry) => entry.isDirectory) ? entries : null
}

interface Walk {
  readonly files: FoundFile[]
  readonly reached: { files: boolean; depth: boolean }
  readonly unread: string[]
}

/**
 * All files in and below some entries, ordered by name. Hidden ones are left out, and so are the pictures and style sheets
 * that a browser saved beside a page. It stops at the bounds that hold for every folder.
 */
export async function filesOf(entries: readonly FileSystemEntry[]): Promise<Walked> {
  const walk: Walk = { files: [], reached: { files: false, depth: false }, unread: [] }
  await walkAll(entries, [], walk)
  const unread = walk.unread.map(
    (name) => `“${name}” could not be read and was left out. See whether it is still there and may be read.`,
  )
  return { files: walk.files, notes: [...boundNotes(walk.reached), ...unread] }
}

async function walkAll(
  entries: readonly FileSystemEntry[],
  directories: readonly string[],
  walk: Walk,
): Promise<void> {
  const names = entries.filter(({ isFile }) => isFile).map(({ name }) => name)
  const shown = entries.filter(({ name }) => !isHiddenName(name))
  for (const entry of [...shown].sort((one, other) => compareNames(one.name, other.name))) {
    if (walk.files.length >= folderBounds.files) {
      walk.reached.files = true
      return
    }
    if (entry.isFile) await addFile(entry as FileSystemFileEntry, directories, walk)
    else if (!isCompanionFolder(entry.name, names))
      await walkInto(entry as FileSystemDirectoryEntry, directories, walk)
  }
}

async function addFile(
  entry: FileSystemFileEntry,
  directories: readonly string[],
  walk: Walk,
): Promise<void> {
  const file = await new Promise<File | null>((resolve) => entry.file(resolve, () => resolve(null)))
  if (file) walk.files.push({ file, directories })
  else walk.unread.push(entry.name)
}

async function walkInto(
  folder: FileSystemDirectoryEntry,
  directories: readonly string[],
  walk: Walk,
): Promise<void> {
  if (directories.length >= folderBounds.depth) {
    walk.reached.depth = true
    return
  }
  const entries = await entriesOf(folder)
  if (entries) await walkAll(entries, [...directories, folder.name], walk)
  else walk.unread.push(folder.name)
}

/** A reader gives a folder's entries in portions, a hundred at a time in Chromium, and an empty one at the end. */
async function entriesOf(folder: FileSystemDirectoryEntry): Promise<readonly FileSystemEntry[] | null> {
  const reader = folder.createReader()
  const all: FileSystemEntry[] = []
  for (;;) {
    const portion = await new Promise<readonly FileSystemEntry[] | null>((resolve) =>
      reader.readEntries(resolve, () => resolve(null)),
    )
    if (portion === null) return null
    if (portion.length === 0 || all.length > folderBounds.files) return all
    all.push(...portion)
  }
}
