/**
 * Sorted strings as bytes. Each says how many UTF-16 code units it shares with the one before, how many bytes the rest has,
 * then the rest; every 16th is whole, so that one can be looked up without reading all. Code units are numbers as in bytes.ts:
 * one byte for ASCII.
 */
import { ByteReader, type ByteWriter } from './bytes.ts'

const BLOCK = 16

/** @param strings each once, sorted by UTF-16 code units */
export function writeDictionary(strings: readonly string[], into: ByteWriter): void {
  const starts = new Uint32Array(Math.ceil(strings.length / BLOCK) + 1)
  const from = into.length
  let before = ''
  for (const [at, string] of strings.entries()) {
    if (at % BLOCK === 0) {
      starts[at / BLOCK] = into.length - from
      before = ''
    }
    writeString(before, string, into)
    before = string
  }
  starts[starts.length - 1] = into.length - from
  const length = into.length - from
  into.align(4)
  into.copy(new Uint8Array(starts.buffer))
  into.copy(new Uint8Array(Uint32Array.of(length, strings.length).buffer))
}

function writeString(before: string, string: string, into: ByteWriter): void {
  const most = Math.min(before.length, string.length)
  let shared = 0
  while (shared < most && before.charCodeAt(shared) === string.charCodeAt(shared)) shared++
  into.number(shared)
  let bytes = 0
  for (let at = shared; at < string.length; at++) bytes += bytesOf(string.charCodeAt(at))
  into.number(bytes)
  for (let at = shared; at < string.length; at++) into.number(string.charCodeAt(at))
}

function bytesOf(code: number): number {
  return code < 1 << 7 ? 1 : code < 1 << 14 ? 2 : 3
}

/** Reads what {@link writeDictionary} wrote, in place. */
export class Dictionary {
  readonly length: number
  private readonly starts: Uint32Array
  private readonly heads: (string | undefined)[]

  /** @param bytes all that was written, starting at a multiple of four in its buffer */
  constructor(private readonly bytes: Uint8Array) {
    const tail = new Uint32Array(bytes.buffer, bytes.byteOffset + bytes.length - 8, 2)
    const [length, count] = [tail[0]!, tail[1]!]
    this.length = count
    const blocks = Math.ceil(count / BLOCK)
    this.starts = new Uint32Array(bytes.buffer, bytes.byteOffset + ((length + 3) & ~3), blocks + 1)
    this.heads = new Array<string | undefined>(blocks)
  }

  /** The string at a place. */
  get(at: number): string {
    const { reader, first } = this.blockOf(at)
    const codes: number[] = []
    for (let place = first; place <= at; place++) {
      codes.length = reader.number()
      for (const end = reader.number() + reader.at; reader.at < end;) codes.push(reader.number())
    }
    return String.fromCharCode(...codes)
  }

  /** Where a string stands, -1 where it does not. */
  find(string: string): number {
    const at = this.firstFrom(string)
    return at < this.length && this.get(at) === string ? at : -1
  }

  /** The place of the first string that is not before the given one; the length where all are. */
  firstFrom(string: string): number {
    let low = 0
    let high = this.heads.length
    // The first block whose head is not before the string; what is wanted stands in the block before, or is that head.
    while (low < high) {
      const middle = (low + high) >> 1
      if (this.head(middle) < string) low = middle + 1
      else high = middle
    }
    if (low === 0) return 0
    const walk = new DictionaryWalk(this, (low - 1) * BLOCK)
    const end = Math.min(low * BLOCK, this.length)
    while (walk.at < end && walk.string < string) walk.next()
    return Math.min(walk.at, end)
  }

  /** The places of the strings with a beginning, from the first to before the last. */
  range(beginning: string): [number, number] {
    const start = this.firstFrom(beginning)
    return [start, this.firstFrom(afterAll(beginning))]
  }

  /** All strings in order. */
  *[Symbol.iterator](): Generator<string> {
    for (const walk = new DictionaryWalk(this, 0); walk.at < this.length; walk.next()) yield walk.string
  }

  /** A reader at the first string, for those that go through all of them on their own. */
  reader(): ByteReader {
    return new ByteReader(this.bytes)
  }

  /** Says whether the string at a place is written whole: a block starts there. */
  isHead(at: number): boolean {
    return at % BLOCK === 0
  }

  /** The last block whose first string has a beginning, looked for behind one that has it. @param at where that stands */
  lastBlockFrom(beginning: string, at: number): { readonly reader: ByteReader; readonly first: number } {
    let low = at / BLOCK
    let high = this.heads.length
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (this.head(middle).startsWith(beginning)) low = middle
      else high = middle
    }
    return this.blockOf(low * BLOCK)
  }

  /** A reader at the block in which a place stands, and that block's first place. */
  blockOf(at: number): { readonly reader: ByteReader; readonly first: number } {
    const block = Math.floor(at / BLOCK)
    return { reader: new ByteReader(this.bytes, this.starts[block] ?? 0), first: block * BLOCK }
  }

  private head(block: number): string {
    return (this.heads[block] ??= new DictionaryWalk(this, block * BLOCK).string)
  }
}

/** Goes through a dictionary from a place on. */
export class DictionaryWalk {
  at: number
  /** The string at the place; what it was last behind the end. */
  string = ''
  /** How many code units it shares with the string before; 0 at the head of a block, which is written whole. */
  shared = 0
  private readonly reader: ByteReader

  constructor(
    private readonly dictionary: Dictionary,
    at: number,
  ) {
    const { reader, first } = dictionary.blockOf(at)
    this.reader = reader
    this.at = first - 1
    while (this.at < at) this.next()
  }

  next(): void {
    if (++this.at >= this.dictionary.length) return
    this.shared = this.reader.number()
    let rest = ''
    for (const end = this.reader.number() + this.reader.at; this.reader.at < end;)
      rest += String.fromCharCode(this.reader.number())
    this.string = this.string.slice(0, this.shared) + rest
  }
}

/** What stands behind all strings with a beginning. */
function afterAll(beginning: string): string {
  return `${beginning}\uffff\uffff`
}
