/** Bytes that grow, and numbers in few of them: LEB128, seven bits a byte, lowest first. */

export class ByteWriter {
  private bytes: Uint8Array
  /** How many bytes were written. */
  length = 0

  constructor(capacity = 1024) {
    this.bytes = new Uint8Array(capacity)
  }

  /** @param value a whole number from 0 to 2^32 - 1 */
  number(value: number): void {
    this.reserve(5)
    let rest = value
    while (rest >= 0x80) {
      this.bytes[this.length++] = (rest & 0x7f) | 0x80
      rest >>>= 7
    }
    this.bytes[this.length++] = rest
  }

  copy(from: Uint8Array, start = 0, end = from.length): void {
    this.reserve(end - start)
    this.bytes.set(end - start === from.length ? from : from.subarray(start, end), this.length)
    this.length += end - start
  }

  /** Fills up with zeros to a multiple of so many bytes. */
  align(to: number): void {
    this.reserve(to)
    while (this.length % to !== 0) this.bytes[this.length++] = 0
  }

  /** What was written, without room behind it. */
  done(): Uint8Array {
    return this.bytes.slice(0, this.length)
  }

  private reserve(more: number): void {
    if (this.length + more <= this.bytes.length) return
    const grown = new Uint8Array(Math.max(this.length + more, this.bytes.length * 2))
    grown.set(this.bytes.subarray(0, this.length))
    this.bytes = grown
  }
}

/** Reads numbers one behind the other. */
export class ByteReader {
  constructor(
    readonly bytes: Uint8Array,
    public at = 0,
  ) {}

  number(): number {
    const { bytes } = this
    let byte = bytes[this.at++]!
    if (byte < 0x80) return byte
    let value = byte & 0x7f
    for (let shift = 7; ; shift += 7) {
      byte = bytes[this.at++]!
      value |= (byte & 0x7f) << shift
      if (byte < 0x80) return value >>> 0
    }
  }

  /** Reads a number if it is the given one. */
  has(wanted: number): boolean {
    const { at } = this
    if (this.number() === wanted) return true
    this.at = at
    return false
  }

  skip(numbers: number): void {
    for (let left = numbers; left > 0;) if (this.bytes[this.at++]! < 0x80) left--
  }
}
