/**
 * One file that another program writes, read as it grows. Without Electron.
 *
 * The system's notices (fs.watch) make it quick; a slow look again and again makes it sure, since notices are missed on
 * network mounts and for a file that comes back under its name. Nothing is read ahead: each `read` takes what is there.
 */
import { constants, watch, type BigIntStats, type FSWatcher } from 'node:fs'
import { open, stat, type FileHandle } from 'node:fs/promises'
import { basename } from 'node:path'
import type { LogPiece } from '../shared/host.ts'
import { changeSentence, type Change } from './log-sentences.ts'
import { toReason } from './sentences.ts'

/** Milliseconds. */
export interface LogTimings {
  /** Between two looks without a notice. */
  readonly look: number
  /** The same while the file is not there, or cannot be read or watched. */
  readonly absent: number
}

export const usualLogTimings: LogTimings = { look: 1000, absent: 250 }

/** What is read piece by piece: a file or a pipe. */
export interface LogSource {
  /** What is there now; empty when there is nothing new. Calls do not overlap. @param most bytes */
  read(most: number): Promise<LogPiece[]>
  stop(): void
}

/** Told when there may be something to read. Says whether it is read at once. */
export type OnNotice = () => boolean

/** How much stood in a file at a time, where nobody read it then. */
interface Mark {
  readonly size: number
  readonly ms: number
}

/** So many bytes before the place of reading are looked at again, to see a file that was written anew. */
const anchorBytes = 64
/** More marks than this are not kept: then what came meanwhile has the time of the last one. */
const mostMarks = 1000

export class LogFile implements LogSource {
  private identity: string | null = null
  private offset: number
  private anchor: Uint8Array = new Uint8Array(0)
  /** How large the file was when it was looked at last. */
  private seenSize = -1
  private earlier: number
  private isCaughtUp = false
  private trouble: 'deleted' | 'unreadable' | null = null
  private isReplaced = false
  private isLookDue = false
  private isHole = false
  private marks: Mark[] = []
  private isMarking = false
  private noticedMs: number | null = null
  private watcher: FSWatcher | null = null
  private timer: NodeJS.Timeout | null = null
  private isStopped = false

  private constructor(
    private readonly path: string,
    private readonly of: LogPiece['of'],
    private file: FileHandle | null,
    stats: BigIntStats,
    offset: number,
    private readonly onNotice: OnNotice,
    private readonly timings: LogTimings,
  ) {
    this.identity = toIdentity(stats)
    this.earlier = Number(stats.size)
    this.offset = Math.min(offset, this.earlier)
    this.watch()
    this.lookLater()
  }

  /**
   * Opens a file to be followed. @param offset where to begin, in bytes
   * @throws what the system answers, and ENXIO for what is no regular file
   */
  static async open(
    path: string,
    of: LogPiece['of'],
    offset: number,
    onNotice: OnNotice,
    timings: LogTimings = usualLogTimings,
  ): Promise<LogFile> {
    const { file, stats } = await openRegular(path)
    return new LogFile(path, of, file, stats, offset, onNotice, timings)
  }

  async read(most: number): Promise<LogPiece[]> {
    const pieces: LogPiece[] = []
    if (this.isLookDue || this.file === null) await this.lookAtPath(pieces)
    let left = most
    while (left > 0 && !this.isStopped && this.file !== null) {
      const before = left
      left -= await this.readOnce(left, pieces)
      // What came since its size was asked for brings a notice of its own, so it is not asked for again.
      const isAtEnd = before === left || this.offset === this.seenSize
      if (isAtEnd && !(await this.isMoreBehindEnd(pieces))) break
    }
    return pieces
  }

  stop(): void {
    this.isStopped = true
    if (this.timer !== null) clearTimeout(this.timer)
    this.unwatch()
    this.close()
  }

  /** Reads the next bytes, all of one time of arrival. Says how many; 0 at the end of the file. */
  private async readOnce(most: number, pieces: LogPiece[]): Promise<number> {
    try {
      const size = (await this.file!.stat()).size
      this.seenSize = size
      if (size < this.offset) this.beginAnew('truncated', pieces)
      if (size === this.offset) return 0
      const { end, arrivedMs } = this.nextEnd(Math.min(size, this.offset + most))
      return await this.readTo(end, arrivedMs, pieces)
    } catch (error) {
      if (!this.isStopped) this.tell('unreadable', pieces, error)
      this.close()
      return 0
    }
  }

  private async readTo(end: number, arrivedMs: number | null, pieces: LogPiece[]): Promise<number> {
    const { anchor, offset } = this
    const buffer = new Uint8Array(anchor.length + end - offset)
    const { bytesRead } = await this.file!.read(buffer, 0, buffer.length, offset - anchor.length)
    if (bytesRead <= anchor.length) return 0
    if (!isSame(buffer.subarray(0, anchor.length), anchor)) {
      this.beginAnew('truncated', pieces)
      return 1
    }
    const bytes = buffer.slice(anchor.length, bytesRead)
    this.offset += bytes.length
    this.anchor = buffer.slice(Math.max(bytesRead - anchorBytes, 0), bytesRead)
    const skipped = this.isHole ? zerosBefore(bytes) : 0
    this.isHole &&= skipped === bytes.length
    if (skipped < bytes.length)
      pieces.push({
        kind: 'bytes',
        of: this.of,
        offset: offset + skipped,
        bytes: skipped === 0 ? bytes : bytes.slice(skipped),
        arrivedMs,
      })
    return bytes.length
  }

  /** How far the bytes go that came at the same time as the next one. */
  private nextEnd(most: number): { end: number; arrivedMs: number | null } {
    if (this.offset < this.earlier) return { end: Math.min(most, this.earlier), arrivedMs: null }
    this.marks = this.marks.filter(({ size }) => size > this.offset)
    const mark = this.marks[0]
    if (mark === undefined) return { end: most, arrivedMs: this.noticedMs ?? Date.now() }
    return { end: Math.min(most, mark.size), arrivedMs: mark.ms }
  }

  /** At the end: says once that all earlier bytes were given, and goes over to another file of the same name. */
  private async isMoreBehindEnd(pieces: LogPiece[]): Promise<boolean> {
    this.noticedMs = null
    if (this.file === null) return false
    if (this.offset >= this.earlier) this.sayCaughtUp(pieces)
    // A notice that brought no bytes may tell of the name and not of the content.
    if (!this.isReplaced && pieces.length === 0) await this.lookAtPath(pieces)
    if (!this.isReplaced) return false
    return this.openAnew(pieces)
  }

  private async lookAtPath(pieces: LogPiece[]): Promise<void> {
    this.isLookDue = false
    try {
      const stats = await stat(this.path, { bigint: true })
      if (this.file === null || toIdentity(stats) !== this.identity) {
        this.isReplaced = true
        if (this.file === null) await this.openAnew(pieces)
      } else if (this.trouble !== null) this.tell('back', pieces)
    } catch (error) {
      this.tell(isCode(error, 'ENOENT') ? 'deleted' : 'unreadable', pieces, error)
    }
  }

  /** Opens what has the name now; says whether that went well. */
  private async openAnew(pieces: LogPiece[]): Promise<boolean> {
    try {
      const { file, stats } = await openRegular(this.path)
      if (this.isStopped) {
        await file.close()
        return false
      }
      const isSameFile = toIdentity(stats) === this.identity
      this.close()
      this.file = file
      this.identity = toIdentity(stats)
      this.isReplaced = false
      this.unwatch()
      this.watch()
      if (isSameFile) this.tell('back', pieces)
      else this.beginAnew('replaced', pieces)
      return true
    } catch (error) {
      this.tell(isCode(error, 'ENOENT') ? 'deleted' : 'unreadable', pieces, error)
      return false
    }
  }

  private beginAnew(how: 'truncated' | 'replaced', pieces: LogPiece[]): void {
    this.offset = 0
    this.seenSize = -1
    this.anchor = new Uint8Array(0)
    this.earlier = 0
    this.marks = []
    // A program that does not append goes on at its old place, and the system fills up before it with zeros.
    this.isHole = how === 'truncated'
    this.sayCaughtUp(pieces)
    this.tell(how, pieces)
  }

  private sayCaughtUp(pieces: LogPiece[]): void {
    if (!this.isCaughtUp) pieces.push({ kind: 'caught up', of: this.of })
    this.isCaughtUp = true
  }

  private tell(how: Change, pieces: LogPiece[], error?: unknown): void {
    if (how === this.trouble) return
    this.trouble = how === 'deleted' || how === 'unreadable' ? how : null
    const sentence = changeSentence(how, basename(this.path), error === undefined ? '' : toReason(error))
    pieces.push({ kind: 'changed', of: this.of, how, sentence, atMs: Date.now() })
  }

  private notice(): void {
    if (this.isStopped) return
    this.noticedMs ??= Date.now()
    if (!this.onNotice()) void this.mark()
  }

  /** Keeps when bytes came that nobody reads now. */
  private async mark(): Promise<void> {
    if (this.isMarking || this.file === null) return
    this.isMarking = true
    try {
      const { size } = await this.file.stat()
      const last = this.marks.at(-1)
      if (size > Math.max(this.offset, last?.size ?? 0)) {
        if (this.marks.length >= mostMarks) this.marks.pop()
        this.marks.push({ size, ms: Date.now() })
      }
    } catch {
      // The next read says what is wrong.
    } finally {
      this.isMarking = false
    }
  }

  private watch(): void {
    try {
      const watcher = watch(this.path, { persistent: false }, (event) => {
        if (event === 'rename') this.isLookDue = true
        this.notice()
      })
      watcher.on('error', () => this.unwatch())
      this.watcher = watcher
    } catch {
      // The system has no more watches to give, or the mount knows none: the look still finds everything.
    }
  }

  private unwatch(): void {
    this.watcher?.close()
    this.watcher = null
  }

  private lookLater(): void {
    const isUsual = this.watcher !== null && this.trouble === null
    this.timer = setTimeout(
      () => {
        this.isLookDue = true
        this.notice()
        if (!this.isStopped) this.lookLater()
      },
      isUsual ? this.timings.look : this.timings.absent,
    )
    this.timer.unref()
  }

  private close(): void {
    void this.file?.close().catch(() => undefined)
    this.file = null
  }
}

const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0)

async function openRegular(path: string): Promise<{ file: FileHandle; stats: BigIntStats }> {
  // Some devices do something when they are only opened, so it is looked at before.
  if (!(await stat(path)).isFile()) throw Object.assign(new Error('ENXIO'), { code: 'ENXIO' })
  const file = await open(path, withoutWaiting)
  const stats = await file.stat({ bigint: true })
  if (stats.isFile()) return { file, stats }
  await file.close()
  throw Object.assign(new Error('ENXIO'), { code: 'ENXIO' })
}

/** Tells a file from another one that has its name later. An inode number alone is soon used again. */
export function toIdentity({ dev, ino, birthtimeNs }: BigIntStats): string {
  return `${dev}:${ino}:${birthtimeNs}`
}

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  return one.every((byte, at) => byte === other[at])
}

function zerosBefore(bytes: Uint8Array): number {
  const first = bytes.findIndex((byte) => byte !== 0)
  return first === -1 ? bytes.length : first
}

function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code
}
