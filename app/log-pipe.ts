/** One named pipe that another program writes to. Without Electron. What is read from it is gone from it. */
import { close, constants, fstat, open, type BigIntStats } from 'node:fs'
import { stat } from 'node:fs/promises'
import { Socket } from 'node:net'
import { basename } from 'node:path'
import { promisify } from 'node:util'
import type { LogPiece } from '../shared/host.ts'
import { toIdentity, usualLogTimings, type LogSource, type LogTimings, type OnNotice } from './log-file.ts'
import { changeSentence, type Change } from './log-sentences.ts'
import { toReason } from './sentences.ts'

/** So many bytes wait for whoever reads; the rest waits in the pipe, and at last its writer does. */
const mostWaiting = 256 * 1024

export class LogPipe implements LogSource {
  private socket: Socket | null = null
  /**
   * Open as long as the pipe is followed, and never read. A reader that has met the end meets no further writer and must make
   * place for another one; without this one, what is written between the two would be lost.
   */
  private kept: number | null = null
  private isOpening = false
  private pieces: LogPiece[] = []
  private waiting = 0
  private offset = 0
  private identity = ''
  private trouble: Change | null = null
  private timer: NodeJS.Timeout | null = null
  private isStopped = false

  constructor(
    private readonly path: string,
    private readonly onNotice: OnNotice,
    private readonly timings: LogTimings = usualLogTimings,
  ) {
    this.pieces.push({ kind: 'caught up', of: 'log' })
  }

  /** Opens the pipe; it need not have a writer yet. @throws what the system answers, and ENXIO for what is no pipe */
  async open(): Promise<BigIntStats> {
    if (!(await stat(this.path)).isFIFO()) throw notPipe()
    const opened: number[] = []
    try {
      // Plain descriptors, since the socket closes its own.
      for (let i = 0; i < 2; i += 1) opened.push(await promisify(open)(this.path, withoutWaiting))
      const [kept, read] = opened as [number, number]
      const stats = await promisify(fstat)(kept, { bigint: true })
      const isOne = toIdentity(await promisify(fstat)(read, { bigint: true })) === toIdentity(stats)
      if (this.isStopped || !stats.isFIFO() || !isOne) throw notPipe()
      this.identity = toIdentity(stats)
      this.keep(kept)
      this.listen(read)
      this.lookLater()
      return stats
    } catch (error) {
      for (const fd of opened) close(fd)
      throw error
    }
  }

  read(most: number): Promise<LogPiece[]> {
    const taken: LogPiece[] = []
    let left = most
    while (this.pieces.length > 0) {
      const piece = this.pieces[0]!
      const size = piece.kind === 'bytes' ? piece.bytes.length : 0
      if (size > left && taken.length > 0) break
      left -= size
      this.waiting -= size
      taken.push(piece)
      this.pieces.shift()
    }
    if (this.waiting < mostWaiting) this.socket?.resume()
    return Promise.resolve(taken)
  }

  stop(): void {
    this.isStopped = true
    if (this.timer !== null) clearTimeout(this.timer)
    this.socket?.destroy()
    this.socket = null
    this.keep(null)
    this.pieces = []
  }

  private listen(fd: number): void {
    const socket = new Socket({ fd, readable: true, writable: false })
    socket.on('data', (data: Buffer) => this.take(new Uint8Array(data)))
    socket.on('error', (error) => this.tell('unreadable', error))
    socket.on('end', () => this.renew(socket))
    socket.on('close', () => this.renew(socket))
    this.socket = socket
  }

  /** A writer that came and went before the next reader was there is read too, but nothing tells that it has gone. */
  private renew(socket: Socket): void {
    if (this.isStopped || this.socket !== socket) return
    socket.destroy()
    this.tell('writer gone')
    void this.reopen()
  }

  private keep(fd: number | null): void {
    if (this.kept !== null) close(this.kept)
    this.kept = fd
  }

  private take(bytes: Uint8Array): void {
    this.trouble = null
    this.pieces.push({ kind: 'bytes', of: 'log', offset: this.offset, bytes, arrivedMs: Date.now() })
    this.offset += bytes.length
    this.waiting += bytes.length
    if (this.waiting >= mostWaiting) this.socket?.pause()
    this.onNotice()
  }

  private async reopen(): Promise<void> {
    if (this.isOpening) return
    this.isOpening = true
    if (this.timer !== null) clearTimeout(this.timer)
    this.socket?.destroy()
    this.socket = null
    try {
      await this.open()
      if (this.trouble === 'deleted' || this.trouble === 'unreadable') this.tell('back')
    } catch (error) {
      if (this.isStopped) return
      const isGone = error instanceof Error && 'code' in error && error.code === 'ENOENT'
      this.tell(isGone ? 'deleted' : 'unreadable', error)
      this.lookLater()
    } finally {
      this.isOpening = false
    }
  }

  private tell(how: Change, error?: unknown): void {
    if (this.isStopped || how === this.trouble) return
    this.trouble = how === 'back' ? null : how
    const sentence = changeSentence(how, basename(this.path), error === undefined ? '' : toReason(error))
    this.pieces.push({ kind: 'changed', of: 'log', how, sentence, atMs: Date.now() })
    this.onNotice()
  }

  /** A pipe that was deleted still has its reader, and is written to no more. */
  private lookLater(): void {
    const wait = this.socket === null ? this.timings.absent : this.timings.look
    this.timer = setTimeout(() => void this.look(), wait)
    this.timer.unref()
  }

  private async look(): Promise<void> {
    const stats = await stat(this.path, { bigint: true }).catch(() => null)
    if (this.isStopped) return
    const isOther = stats !== null && toIdentity(stats) !== this.identity
    if (this.socket === null || isOther) {
      await this.reopen()
      return
    }
    if (stats === null) this.tell('deleted')
    this.lookLater()
  }
}

const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0)

function notPipe(): Error {
  return Object.assign(new Error('ENXIO'), { code: 'ENXIO' })
}
