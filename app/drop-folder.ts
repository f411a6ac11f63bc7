/**
 * One drop folder: what is complete in it, and when that changes. Without Electron.
 *
 * The system's own notices (fs.watch) make it quick; a slow look again and again makes it sure, since notices are missed on
 * network mounts, for folders within the folder, and while the folder itself is gone.
 */
import { readdir, stat } from 'node:fs/promises'
import { watch, type FSWatcher } from 'node:fs'
import { join } from 'node:path'
import {
  boundNotes,
  folderBounds,
  isCompanionFolder,
  isHiddenName,
  isUnfinishedName,
} from '../shared/intake/folder-rules.ts'
import { statAll, type FoundFile } from './folders.ts'
import { toReason } from './sentences.ts'

/** Milliseconds. */
export interface Timings {
  /** A file is complete when its size and time have been the same for so long. */
  readonly settle: number
  /** Notices come in swarms; so long after the first one the folder is looked at. */
  readonly gather: number
  /** Between two looks without a notice. */
  readonly poll: number
  /** A mount that answers no sooner counts as gone until it does. */
  readonly patience: number
}

export const usualTimings: Timings = { settle: 1000, gather: 300, poll: 10_000, patience: 8000 }

/** What one look at the folder found. */
export type Look =
  | { readonly kind: 'unreachable'; readonly reason: string }
  | {
      readonly kind: 'listed'
      readonly files: readonly FoundFile[]
      readonly unfinished: number
      readonly notes: readonly string[]
    }

type RawLook = { readonly files: readonly FoundFile[]; readonly notes: readonly string[] }

/** When a file was first seen as it is now. */
interface Seen {
  readonly size: number
  readonly modifiedMs: number
  readonly since: number
}

export class DropFolder {
  private seen = new Map<string, Seen>()
  private watcher: FSWatcher | null = null
  private watchedInode = 0
  private poll: NodeJS.Timeout | null = null
  private soon: NodeJS.Timeout | null = null
  private running: Promise<RawLook> | null = null
  private next: Promise<RawLook> | null = null
  private last: string | null = null

  /** @param tell called when the complete files are others than at the last look, or the folder has gone or come back */
  constructor(
    readonly path: string,
    private readonly tell: () => void,
    private readonly timings: Timings = usualTimings,
  ) {}

  /** Looks at the folder from now on, until `stop`. */
  start(): void {
    if (this.poll !== null) return
    this.poll = setInterval(() => void this.look(), this.timings.poll)
    this.poll.unref()
    void this.look()
  }

  stop(): void {
    if (this.poll !== null) clearInterval(this.poll)
    if (this.soon !== null) clearTimeout(this.soon)
    this.watcher?.close()
    this.poll = this.soon = this.watcher = null
  }

  /** The complete files; where some are still changing, it waits for them once as long as a complete file stays the same. */
  async list(): Promise<Look> {
    const first = await this.look()
    if (first.kind === 'unreachable' || first.unfinished === 0) return first
    await new Promise((resolve) => setTimeout(resolve, this.timings.settle + 20))
    return this.look()
  }

  /** Looks once, and tells when it is not as it was at the look before. */
  async look(): Promise<Look> {
    const look = await this.lookOnce()
    const now = look.kind === 'unreachable' ? 'gone' : JSON.stringify(look.files)
    const isOther = this.last !== null && this.last !== now
    this.last = now
    if (look.kind === 'listed' && look.unfinished > 0) this.lookSoon(this.timings.settle + 20)
    if (isOther && this.poll !== null) this.tell()
    return look
  }

  private async lookOnce(): Promise<Look> {
    try {
      const { files, notes } = await this.lookPatiently()
      await this.ensureWatched()
      return { kind: 'listed', ...this.settle(files), notes }
    } catch (error) {
      this.unwatch()
      return { kind: 'unreachable', reason: toReason(error) }
    }
  }

  /**
   * Finds what is there from now on: a look that was under way before may have missed it. While a mount hangs, one look
   * hangs with it and one waits behind that, however many ask.
   */
  private findFresh(): Promise<RawLook> {
    if (this.running === null)
      return (this.running = findCandidates(this.path).finally(() => (this.running = null)))
    const after = (): Promise<RawLook> => {
      this.next = null
      return this.findFresh()
    }
    return (this.next ??= this.running.then(after, after))
  }

  private async lookPatiently(): Promise<RawLook> {
    const found = this.findFresh()
    // It may fail long after it was waited for.
    found.catch(() => undefined)
    let timer: NodeJS.Timeout | undefined
    const late = new Promise<never>((_resolve, reject) => {
      const error = Object.assign(new Error('late'), { code: 'ETIMEDOUT' })
      timer = setTimeout(() => reject(error), this.timings.patience)
    })
    return Promise.race([found, late]).finally(() => clearTimeout(timer))
  }

  private settle(files: readonly FoundFile[]): { files: FoundFile[]; unfinished: number } {
    const now = performance.now()
    const seen = new Map<string, Seen>()
    const complete: FoundFile[] = []
    for (const { name, size, modifiedMs } of files) {
      const before = this.seen.get(name)
      const isSame = before?.size === size && before.modifiedMs === modifiedMs
      const since = isSame ? before.since : now
      seen.set(name, { size, modifiedMs, since })
      if (now - since >= this.timings.settle) complete.push({ name, size, modifiedMs })
    }
    this.seen = seen
    return { files: complete, unfinished: files.length - complete.length }
  }

  /** A folder that went and came back is another one to the system, and needs a new watch. */
  private async ensureWatched(): Promise<void> {
    if (this.poll === null) return
    const { ino } = await stat(this.path)
    if (this.watcher !== null && this.watchedInode === ino) return
    this.unwatch()
    try {
      const watcher = watch(this.path, { persistent: false }, () => this.lookSoon(this.timings.gather))
      watcher.on('error', () => this.unwatch())
      this.watcher = watcher
      this.watchedInode = ino
    } catch {
      // The system has no more watches to give, or the mount knows none: the slow look still finds everything.
    }
  }

  private unwatch(): void {
    this.watcher?.close()
    this.watcher = null
  }

  private lookSoon(afterMs: number): void {
    if (this.soon !== null || this.poll === null) return
    this.soon = setTimeout(() => {
      this.soon = null
      void this.look()
    }, afterMs)
    this.soon.unref()
  }
}

/** The files that could be complete, in the folder and in the folders directly in it. @throws when it cannot be read */
async function findCandidates(path: string): Promise<RawLook> {
  const entries = await readdir(path, { withFileTypes: true })
  const plain = entries.filter((entry) => entry.isFile()).map((entry) => entry.name)
  const names = plain.filter((name) => !isUnfinishedName(name))
  for (const entry of entries) {
    if (!entry.isDirectory() || isHiddenName(entry.name) || isCompanionFolder(entry.name, plain)) continue
    if (names.length > folderBounds.files) break
    const inner = await readdir(join(path, entry.name), { withFileTypes: true }).catch(() => [])
    const files = inner.filter((one) => one.isFile() && !isUnfinishedName(one.name))
    names.push(...files.map((one) => `${entry.name}/${one.name}`))
  }
  const notes = boundNotes({ files: names.length > folderBounds.files, depth: false })
  const files = await statAll(path, names.slice(0, folderBounds.files))
  return { files: files.filter((file) => file.size > 0), notes }
}
