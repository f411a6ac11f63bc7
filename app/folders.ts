/** Looking through a folder that a person chose: bounded, without following links, without Electron. */
import { lstat, readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { boundNotes, compareNames, folderBounds, isHiddenName } from '../shared/intake/folder-rules.ts'
import { toReason } from './sentences.ts'

/** A file that was found, by its name relative to the folder. */
export interface FoundFile {
  readonly name: string
  /** In bytes. */
  readonly size: number
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly modifiedMs: number
}

export interface FoundFiles {
  /** Ordered by name. */
  readonly files: readonly FoundFile[]
  /** Sentences about what was left out. */
  readonly notes: readonly string[]
}

/** No more entries than this are looked at, whatever they are, so that a folder of empty folders ends too. */
const mostEntries = 200_000

/**
 * The regular files in a folder and below it. Hidden names and symbolic links are skipped, and so is a folder that cannot
 * be read, with a sentence. @throws what the system answers when the folder itself cannot be read
 */
export async function walkFolder(
  root: string,
  bounds: { files: number; depth: number } = folderBounds,
): Promise<FoundFiles> {
  const walk = new Walk(root, bounds)
  await walk.lookInto('', 0)
  return { files: await statAll(root, walk.names), notes: walk.notes() }
}

class Walk {
  readonly names: string[] = []
  private readonly unread: string[] = []
  private readonly reached = { files: false, depth: false }
  private entries = 0

  constructor(
    private readonly root: string,
    private readonly bounds: { files: number; depth: number },
  ) {}

  async lookInto(folder: string, depth: number): Promise<void> {
    const entries = await readdir(join(this.root, folder), { withFileTypes: true })
    for (const entry of entries.sort((one, other) => compareNames(one.name, other.name))) {
      if (this.reached.files) return
      this.entries += 1
      if (isHiddenName(entry.name)) continue
      const name = folder === '' ? entry.name : `${folder}/${entry.name}`
      if (entry.isFile()) this.add(name)
      else if (entry.isDirectory()) await this.goDown(name, depth)
    }
  }

  notes(): readonly string[] {
    return [...boundNotes(this.reached), ...this.unread]
  }

  private add(name: string): void {
    if (this.names.length >= this.bounds.files) this.reached.files = true
    else this.names.push(name)
  }

  private async goDown(name: string, depth: number): Promise<void> {
    if (this.entries > mostEntries) this.reached.files = true
    if (depth >= this.bounds.depth) this.reached.depth = true
    else if (!this.reached.files)
      await this.lookInto(name, depth + 1).catch((error: unknown) => this.noteUnread(name, error))
  }

  private noteUnread(name: string, error: unknown): void {
    if (this.unread.length < 20)
      this.unread.push(
        `The folder “${name}” could not be read: ${toReason(error)}. What is in it was left out.`,
      )
  }
}

/** Sizes and times of a folder's files. One that has gone meanwhile, or is no regular file any more, is left out. */
export async function statAll(root: string, names: readonly string[]): Promise<readonly FoundFile[]> {
  const found: FoundFile[] = []
  const sorted = [...names].sort(compareNames)
  for (let at = 0; at < sorted.length; at += 64) {
    const some = await Promise.all(sorted.slice(at, at + 64).map((name) => maybeStat(root, name)))
    found.push(...some.filter((file) => file !== null))
  }
  return found
}

async function maybeStat(root: string, name: string): Promise<FoundFile | null> {
  const stats = await lstat(join(root, ...name.split('/'))).catch(() => null)
  return stats?.isFile() === true ? { name, size: stats.size, modifiedMs: Math.floor(stats.mtimeMs) } : null
}
