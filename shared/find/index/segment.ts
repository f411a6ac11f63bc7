/**
 * A segment: some documents and where their words stand, as bytes that never change. Its sections:
 *
 *     ids       dictionary of the documents' ids; a document's number is its place there
 *     rows      of each document: moment, weight, thing
 *     terms     dictionary of the folded forms, and of the facts, which begin with U+0001
 *     starts    where each term's postings start
 *     postings  of each term: how many documents; of each, in order, its distance from the one before and how much the
 *               term weighs in it; then of each the places where it stands (facts have none)
 *     stems     dictionary of stems, and the terms of each
 *
 * Numbers of a fixed width are little-endian, as on every machine that runs the program.
 */
import { ByteReader, ByteWriter } from './bytes.ts'
import { Dictionary } from './dictionary.ts'

/** Changes whenever bytes that were written before would be read wrongly, words are split or weighed differently, or things say more. */
export const SEGMENT_FORMAT = 4

/** What begins a fact: nothing that is typed or read can. */
export const FACT = '\u0001'
/** The fact of what was withdrawn. */
export const WITHDRAWN = 'is=withdrawn'

const sections = [
  'ids',
  'moments',
  'weights',
  'things',
  'terms',
  'starts',
  'postings',
  'stems',
  'stemStarts',
  'stemTerms',
] as const
type Section = (typeof sections)[number]

const HEAD = 8 * (2 + sections.length)

/** Puts the sections together, with their places before and a sum over all behind. */
export function joinSections(parts: Readonly<Record<Section, Uint8Array>>): Uint8Array {
  const head = new Uint32Array(HEAD / 4)
  head[0] = SEGMENT_FORMAT
  const into = new ByteWriter(HEAD + sections.reduce((sum, name) => sum + parts[name].length + 8, 8))
  into.copy(new Uint8Array(head.buffer))
  for (const [at, name] of sections.entries()) {
    head[2 + 2 * at] = into.length
    head[3 + 2 * at] = parts[name].length
    into.copy(parts[name])
    into.align(8)
  }
  head[1] = into.length
  const bytes = new Uint8Array(into.length + 4)
  bytes.set(into.done())
  bytes.set(new Uint8Array(head.buffer))
  new DataView(bytes.buffer).setUint32(bytes.length - 4, sumOf(bytes, bytes.length - 4), true)
  return bytes
}

/** Opens a segment without reading it through. */
export class Segment {
  readonly ids: Dictionary
  /** Of each document, ms since 1970-01-01T00:00:00Z, NaN for none. */
  readonly moments: Float64Array
  /** Of each document the number of its words, each as often as its field counts. */
  readonly weights: Uint32Array
  /** Of each document its place in `foundThings`. */
  readonly things: Uint8Array
  readonly terms: Dictionary
  readonly stems: Dictionary
  private readonly starts: Uint32Array
  private readonly postings: Uint8Array
  private readonly stemStarts: Uint32Array
  private readonly stemTerms: Uint32Array

  constructor(readonly bytes: Uint8Array) {
    const head = new Uint32Array(bytes.buffer, bytes.byteOffset, HEAD / 4)
    const part = (name: Section): Uint8Array => {
      const at = sections.indexOf(name)
      const start = head[2 + 2 * at]!
      return bytes.subarray(start, start + head[3 + 2 * at]!)
    }
    this.ids = new Dictionary(part('ids'))
    this.moments = toFloats(part('moments'))
    this.weights = toWhole(part('weights'))
    this.things = part('things')
    this.terms = new Dictionary(part('terms'))
    this.starts = toWhole(part('starts'))
    this.postings = part('postings')
    this.stems = new Dictionary(part('stems'))
    this.stemStarts = toWhole(part('stemStarts'))
    this.stemTerms = toWhole(part('stemTerms'))
  }

  /** How many documents it holds, gone ones too. */
  get length(): number {
    return this.things.length
  }

  /** The terms that have a stem. */
  termsOfStem(stem: string): Uint32Array {
    const at = this.stems.find(stem)
    return at < 0 ? new Uint32Array(0) : this.stemTerms.subarray(this.stemStarts[at], this.stemStarts[at + 1])
  }

  postingsOf(term: number): Postings {
    return new Postings(this.postings, this.starts[term]!)
  }
}

/** Goes through a term's documents. */
export class Postings {
  readonly count: number
  readonly hasPlaces: boolean
  /** The document, and how much the term weighs in it: how often it stands there, by the weights of the fields. */
  document = -1
  weight = 0
  private left: number
  private readonly reader: ByteReader

  constructor(bytes: Uint8Array, start: number) {
    this.reader = new ByteReader(bytes, start)
    const head = this.reader.number()
    this.count = this.left = head >>> 1
    this.hasPlaces = (head & 1) === 1
  }

  next(): boolean {
    if (this.left === 0) return false
    this.left--
    const step = this.reader.number()
    this.document += (step >>> 1) + 1
    this.weight = step & 1 ? this.reader.number() : 1
    return true
  }

  /** A reader of the places, once all documents were gone through: of each, in order, how many and the steps between. */
  places(): ByteReader {
    while (this.next());
    return this.reader
  }
}

/** Says whether bytes are a whole segment of this format. */
export function isSegment(bytes: Uint8Array): boolean {
  if (bytes.length < HEAD + 4 || bytes.byteOffset % 8 !== 0) return false
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
  return (
    view.getUint32(0, true) === SEGMENT_FORMAT &&
    view.getUint32(4, true) === bytes.length - 4 &&
    view.getUint32(bytes.length - 4, true) === sumOf(bytes, bytes.length - 4)
  )
}

/** FNV-1a over 32-bit words: finds damage, protects from nothing else. @param length a multiple of four */
function sumOf(bytes: Uint8Array, length: number): number {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset, length / 4)
  let sum = 0x811c9dc5
  for (let at = 0; at < words.length; at++) sum = Math.imul(sum ^ words[at]!, 0x01000193)
  return sum >>> 0
}

function toWhole(bytes: Uint8Array): Uint32Array {
  return new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length / 4)
}

function toFloats(bytes: Uint8Array): Float64Array {
  return new Float64Array(bytes.buffer, bytes.byteOffset, bytes.length / 8)
}
