/** Makes one segment of several, without their documents that are gone. Nothing of those is left in the new one. */
import { compareText } from '../tag-terms.ts'
import { hasBit, type Bits } from './bits.ts'
import type { ByteReader } from './bytes.ts'
import { DictionaryWalk } from './dictionary.ts'
import type { Segment } from './segment.ts'
import { SegmentWriter, type DocumentRow } from './segment-writer.ts'

export interface PartlyGone {
  readonly segment: Segment
  /** Documents that are gone; null for none. */
  readonly gone: Bits | null
}

const GONE = -1
/** Of so many terms a step is made. */
const STEP = 256

/**
 * Takes a while for large segments, so that it comes in steps of a few milliseconds.
 * @returns null where no document is left
 */
export function* mergeSegments(from: readonly PartlyGone[]): Generator<void, Uint8Array | null> {
  const { rows, numbers } = joinRows(from)
  if (rows.length === 0) return null
  const into = new SegmentWriter()
  const sources = from.map(({ segment }, at) => new Source(segment, numbers[at]!))
  for (let terms = 1; ; terms++) {
    if (terms % STEP === 0) yield
    const open = sources.filter((source) => !source.isDone)
    if (open.length === 0) return into.done(rows)
    const term = open.reduce((least, { term }) => (term < least ? term : least), open[0]!.term)
    mergeTerm(
      term,
      open.filter((source) => source.term === term),
      into,
    )
  }
}

/** The documents that are left, by id, and the new number of each old one. */
function joinRows(from: readonly PartlyGone[]): { rows: DocumentRow[]; numbers: Int32Array[] } {
  const numbers = from.map(({ segment }) => new Int32Array(segment.length).fill(GONE))
  const left: { row: DocumentRow; source: number; old: number }[] = []
  for (const [source, { segment, gone }] of from.entries()) {
    const { moments, weights, things } = segment
    let old = 0
    for (const id of segment.ids) {
      const row = { id, moment: moments[old]!, weight: weights[old]!, thing: things[old]! }
      if (gone === null || !hasBit(gone, old)) left.push({ row, source, old })
      old++
    }
  }
  left.sort((one, other) => compareText(one.row.id, other.row.id))
  for (const [number, { source, old }] of left.entries()) numbers[source]![old] = number
  return { rows: left.map(({ row }) => row), numbers }
}

/** One segment, gone through term by term. */
class Source {
  private readonly walk: DictionaryWalk
  constructor(
    private readonly segment: Segment,
    private readonly numbers: Int32Array,
  ) {
    this.walk = new DictionaryWalk(segment.terms, 0)
  }

  get isDone(): boolean {
    return this.walk.at >= this.segment.terms.length
  }

  get term(): string {
    return this.walk.string
  }

  /** Adds what is left of the term's documents, and goes on to the next term. @returns whether it has places */
  take(into: Entries): boolean {
    const postings = this.segment.postingsOf(this.walk.at)
    const first = into.length
    while (postings.next()) into.add(this.numbers[postings.document]!, postings.weight)
    if (postings.hasPlaces) into.readPlaces(first, postings.places())
    into.dropGone(first)
    this.walk.next()
    return postings.hasPlaces
  }
}

function mergeTerm(term: string, sources: readonly Source[], into: SegmentWriter): void {
  const entries = new Entries()
  let hasPlaces = false
  for (const source of sources) hasPlaces = source.take(entries)
  if (entries.length > 0) entries.write(term, hasPlaces, into)
}

/** A term's documents by their new numbers, with the bytes of their places. */
class Entries {
  private readonly documents: number[] = []
  private readonly weights: number[] = []
  private readonly bytes: (Uint8Array | null)[] = []
  private readonly starts: number[] = []
  private readonly ends: number[] = []

  get length(): number {
    return this.documents.length
  }

  add(document: number, weight: number): void {
    this.documents.push(document)
    this.weights.push(weight)
    this.bytes.push(null)
    this.starts.push(0)
    this.ends.push(0)
  }

  readPlaces(first: number, reader: ByteReader): void {
    for (let at = first; at < this.length; at++) {
      this.bytes[at] = reader.bytes
      this.starts[at] = reader.at
      reader.skip(reader.number())
      this.ends[at] = reader.at
    }
  }

  dropGone(first: number): void {
    let kept = first
    for (let at = first; at < this.length; at++) if (this.documents[at] !== GONE) this.move(at, kept++)
    for (const list of [this.documents, this.weights, this.bytes, this.starts, this.ends]) list.length = kept
  }

  write(term: string, hasPlaces: boolean, into: SegmentWriter): void {
    into.begin(term, this.length, hasPlaces)
    for (const at of this.inOrder()) {
      into.document(this.documents[at]!, this.weights[at]!)
      const bytes = this.bytes[at]
      if (bytes) into.placesOfDocument().copy(bytes, this.starts[at], this.ends[at])
    }
    into.end()
  }

  private inOrder(): readonly number[] {
    const { documents } = this
    const order = documents.map((_, at) => at)
    // Ids made later sort later, so that segments mostly follow each other as they are.
    if (documents.some((document, at) => at > 0 && document < documents[at - 1]!))
      order.sort((one, other) => documents[one]! - documents[other]!)
    return order
  }

  private move(from: number, to: number): void {
    this.documents[to] = this.documents[from]!
    this.weights[to] = this.weights[from]!
    this.bytes[to] = this.bytes[from]!
    this.starts[to] = this.starts[from]!
    this.ends[to] = this.ends[from]!
  }
}
