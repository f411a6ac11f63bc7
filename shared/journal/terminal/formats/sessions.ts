/** Parts a typescript into its sessions' own bytes and the lines that script(1) put around them. */
import { Pending } from './bytes.ts'
import { findOpening, maybeClosing, mayBecomeClosing, type Closing, type Opening } from './own-lines.ts'

export type SessionPiece =
  | ({ readonly kind: 'opening' } & Opening)
  | { readonly kind: 'body'; readonly bytes: Uint8Array }
  | ({ readonly kind: 'closing' } & Closing)

export class Sessions {
  private readonly pending = new Pending()
  private isAtStart = true

  /** @param isLive gives bytes as soon as they are there, also where a translated last line may follow */
  constructor(private readonly isLive: boolean) {}

  *push(bytes: Uint8Array): Generator<SessionPiece> {
    this.pending.add(bytes)
    yield* this.part(false)
  }

  *end(): Generator<SessionPiece> {
    yield* this.part(true)
  }

  private *part(isAll: boolean): Generator<SessionPiece> {
    while (this.pending.bytes.length > 0) {
      if (this.isAtStart) {
        const opening = findOpening(this.pending.bytes, isAll, this.isLive)
        if (opening === 'more') return
        this.isAtStart = false
        if (opening === null) continue
        this.pending.take(opening.length)
        yield { kind: 'opening', ...opening }
      } else {
        yield* this.partBody(isAll)
        if (!this.isAtStart) return
      }
    }
  }

  /** Gives the bytes up to the session's last line, or as far as they cannot belong to it. */
  private *partBody(isAll: boolean): Generator<SessionPiece> {
    const { bytes } = this.pending
    let at = bytes.indexOf(10)
    while (at !== -1) {
      const next = bytes.indexOf(10, at + 1)
      const isCut = next === -1
      if (isCut && !isAll) break
      const closing = maybeClosing(bytes.subarray(at + 1, isCut ? undefined : next), isCut)
      if (closing !== null) {
        yield* this.takeBody(at)
        this.pending.take(isCut ? undefined : next + 1 - at)
        this.isAtStart = true
        yield { kind: 'closing', ...closing }
        return
      }
      at = next
    }
    const isHeld = at !== -1 && mayBecomeClosing(bytes.subarray(at), this.isLive)
    yield* this.takeBody(isHeld ? at : bytes.length)
  }

  private *takeBody(count: number): Generator<SessionPiece> {
    if (count > 0) yield { kind: 'body', bytes: this.pending.take(count) }
  }
}

/** What a typescript holds, counted before it is read, to see whether a timing file belongs to it. */
export interface Measured {
  /** Bytes of each of its sessions, without the lines around them. */
  readonly bodies: readonly number[]
  /** The last session's end was written: nothing was cut off behind. */
  readonly isClosed: boolean
}

/** Measures a typescript in pieces. */
export class Measuring {
  private readonly sessions = new Sessions(false)
  private bodies: number[] = []
  private isClosed = false

  push(bytes: Uint8Array): void {
    for (const piece of this.sessions.push(bytes)) this.count(piece)
  }

  end(): Measured {
    for (const piece of this.sessions.end()) this.count(piece)
    return { bodies: this.bodies, isClosed: this.isClosed }
  }

  private count(piece: SessionPiece): void {
    if (piece.kind === 'opening' || this.bodies.length === 0) this.bodies.push(0)
    if (piece.kind === 'body') this.bodies[this.bodies.length - 1]! += piece.bytes.length
    this.isClosed = piece.kind === 'closing'
  }
}
