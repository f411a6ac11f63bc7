/** Logs that are followed now: each by one window, and read only as fast as that window asks. Without Electron. */
import { randomBytes } from 'node:crypto'
import { stat } from 'node:fs/promises'
import { basename } from 'node:path'
import {
  done,
  failed,
  largestLogPiece,
  notFollowed,
  type HostAnswer,
  type HostArgument,
  type HostResult,
  type LogPiece,
} from '../shared/host.ts'
import type { KeptLog } from './kept-logs.ts'
import { LogFile, toIdentity, usualLogTimings, type LogSource, type LogTimings } from './log-file.ts'
import { LogPipe } from './log-pipe.ts'
import { notFollowable } from './log-sentences.ts'
import { toReason } from './sentences.ts'

type Followed = HostAnswer<'followLog'>
type Read = HostAnswer<'readFollowed'>

interface Current {
  readonly owner: object
  readonly log: string
  readonly path: string
  readonly following: Following
}

export class Followings {
  private readonly current = new Map<string, Current>()

  constructor(private readonly timings: LogTimings = usualLogTimings) {}

  /** @param owner the window that asks; a followed log is read by it alone */
  async follow(
    owner: object,
    { log, path, timing }: KeptLog,
    after: HostArgument<'followLog'>['after'],
  ): Promise<HostResult<Followed>> {
    const name = basename(path)
    // Two readers of a pipe would each get half, and two windows would each write down everything.
    const other = [...this.current.values()].find((one) => one.path === path && one.owner !== owner)
    if (other !== undefined) return failed('not read', followedElsewhere(name))
    this.stopLog(log)
    const following = new Following(this.timings)
    try {
      const stats = await stat(path, { bigint: true })
      if (!stats.isFile() && !stats.isFIFO()) return failed('not read', notFollowable(name, isDevice(stats)))
      const opened = await following.open(path, timing, stats.isFIFO() ? 'pipe' : 'file', after)
      const token = randomBytes(16).toString('hex')
      this.current.set(token, { owner, log, path, following })
      return done({ following: token, ...opened })
    } catch (error) {
      following.stop()
      return failed('not read', notOpened(name, toReason(error)))
    }
  }

  async read(owner: object, token: string): Promise<HostResult<Read>> {
    const current = this.current.get(token)
    if (current?.owner !== owner) return failed('not read', notFollowed)
    const pieces = await current.following.next()
    return done(pieces === null ? { kind: 'stopped' } : { kind: 'read', pieces })
  }

  stop(owner: object, token: string): void {
    if (this.current.get(token)?.owner === owner) this.end(token)
  }

  /** Ends following a log, whoever does. */
  stopLog(log: string): void {
    for (const [token, current] of this.current) if (current.log === log) this.end(token)
  }

  /** Ends all that a window follows, since it or its page has gone. */
  stopOwner(owner: object): void {
    for (const [token, current] of this.current) if (current.owner === owner) this.end(token)
  }

  stopAll(): void {
    for (const token of [...this.current.keys()]) this.end(token)
  }

  private end(token: string): void {
    this.current.get(token)?.following.stop()
    this.current.delete(token)
  }
}

/** One log with its timing file. */
class Following {
  /** The timing file first: its records then wait for the bytes that they are of, and not the other way round. */
  private sources: LogSource[] = []
  private wake: (() => void) | null = null
  private isNoticed = true
  private isStopped = false
  private reading: Promise<unknown> = Promise.resolve()

  constructor(private readonly timings: LogTimings) {}

  async open(
    path: string,
    timing: string | null,
    kind: Followed['kind'],
    after: HostArgument<'followLog'>['after'],
  ): Promise<Omit<Followed, 'following'>> {
    const onNotice = (): boolean => this.notice()
    if (kind === 'pipe') {
      const pipe = new LogPipe(path, onNotice, this.timings)
      this.sources.push(pipe)
      return { kind, size: 0, offset: 0, identity: toIdentity(await pipe.open()) }
    }
    const stats = await stat(path, { bigint: true })
    const [identity, size] = [toIdentity(stats), Number(stats.size)]
    const offset = after?.identity === identity && after.offset <= size ? after.offset : 0
    if (timing !== null && offset === 0)
      this.sources.push(await LogFile.open(timing, 'timing', 0, onNotice, this.timings))
    this.sources.push(await LogFile.open(path, 'log', offset, onNotice, this.timings))
    return { kind, size, offset, identity }
  }

  /** What came since the last call; waits until there is something. Null: it was stopped. */
  next(): Promise<LogPiece[] | null> {
    const next = this.reading.then(() => this.readNext())
    this.reading = next
    return next
  }

  stop(): void {
    this.isStopped = true
    for (const source of this.sources) source.stop()
    this.wake?.()
  }

  private async readNext(): Promise<LogPiece[] | null> {
    while (!this.isStopped) {
      // What is noticed from here on may not be seen by this round.
      this.isNoticed = false
      const pieces: LogPiece[] = []
      for (const source of this.sources)
        pieces.push(...(await source.read(largestLogPiece / this.sources.length)))
      if (pieces.length > 0) {
        this.isNoticed = true
        return this.isStopped ? null : pieces
      }
      if (!this.isNoticed && !this.isStopped) await new Promise<void>((resolve) => (this.wake = resolve))
      this.wake = null
    }
    return null
  }

  /** Says whether somebody waits for what may have come. */
  private notice(): boolean {
    const isAwaited = this.wake !== null
    this.isNoticed = true
    this.wake?.()
    return isAwaited
  }
}

export function isDevice(stats: { isCharacterDevice(): boolean; isBlockDevice(): boolean }): boolean {
  return stats.isCharacterDevice() || stats.isBlockDevice()
}

function followedElsewhere(name: string): string {
  return `“${name}” is already followed in another window, so it was not opened here: everything would be read twice. Go on in that window, or stop following it there first.`
}

function notOpened(name: string, reason: string): string {
  return `“${name}” could not be opened: ${reason}. Nothing in the lab was changed. See whether it is there and may be read, or choose another log.`
}
