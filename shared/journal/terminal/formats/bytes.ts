/** Bytes that come in pieces. */

const none = new Uint8Array(0)

/** Bytes that wait until what they belong to is whole. */
export class Pending {
  bytes: Uint8Array = none

  /** Puts bytes behind those that wait. What is given is not copied where nothing waits. */
  add(bytes: Uint8Array): void {
    this.bytes = this.bytes.length === 0 ? bytes : joinBytes([this.bytes, bytes])
  }

  /** Takes the first `count` bytes, all where none is said. */
  take(count = this.bytes.length): Uint8Array {
    const taken = this.bytes.subarray(0, count)
    this.bytes = this.bytes.subarray(count)
    return taken
  }
}

/** Puts pieces together. */
export function joinBytes(pieces: readonly Uint8Array[]): Uint8Array {
  if (pieces.length === 1) return pieces[0]!
  const joined = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0))
  let at = 0
  for (const piece of pieces) {
    joined.set(piece, at)
    at += piece.length
  }
  return joined
}

/** One character for each byte, for looking at what is ASCII in the formats. */
export function toAscii(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 4096)
    text += String.fromCharCode(...bytes.subarray(at, at + 4096))
  return text
}

/**
 * Lines of a text that comes in pieces, as bytes without their ends (LF or CRLF). A line longer than `longest` bytes is
 * dropped and counted.
 */
export class Lines {
  private pieces: Uint8Array[] = []
  private length = 0
  dropped = 0

  constructor(private readonly longest: number) {}

  /** Gives the lines that are whole now. */
  *push(bytes: Uint8Array): Generator<Uint8Array> {
    let at = 0
    for (;;) {
      const end = bytes.indexOf(10, at)
      if (end === -1) break
      this.hold(bytes.subarray(at, end))
      at = end + 1
      yield* this.take()
    }
    if (at < bytes.length) this.hold(bytes.subarray(at))
  }

  /** Gives the last line where it has no end. */
  *end(): Generator<Uint8Array> {
    if (this.length > 0) yield* this.take()
  }

  private hold(piece: Uint8Array): void {
    this.length += piece.length
    if (this.length <= this.longest) this.pieces.push(piece)
    else this.pieces = []
  }

  private *take(): Generator<Uint8Array> {
    const isWhole = this.length <= this.longest
    const line = this.pieces.length === 0 ? none : joinBytes(this.pieces)
    this.pieces = []
    this.length = 0
    if (!isWhole) this.dropped += 1
    else yield line.at(-1) === 13 ? line.subarray(0, -1) : line
  }
}
