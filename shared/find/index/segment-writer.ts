/** Writes a segment, term by term. */
import { ByteWriter } from './bytes.ts'
import { writeDictionary } from './dictionary.ts'
import { maybeStem } from './fold.ts'
import { joinSections } from './segment.ts'

/** What a segment holds of a document beside its words. */
export interface DocumentRow {
  readonly id: string
  /** As in {@link Segment}. */
  readonly moment: number
  readonly weight: number
  readonly thing: number
}

export class SegmentWriter {
  private readonly terms: string[] = []
  private readonly starts: number[] = []
  private readonly postings = new ByteWriter(1 << 16)
  private readonly places = new ByteWriter()
  private before = -1

  /**
   * Begins the next term. Terms come in order, each once.
   *
   * @param count of the documents that follow, at least 1
   */
  begin(term: string, count: number, hasPlaces: boolean): void {
    this.terms.push(term)
    this.starts.push(this.postings.length)
    this.postings.number(count * 2 + (hasPlaces ? 1 : 0))
    this.before = -1
  }

  /** A document of the term, in the order of documents. @param weight at least 1 */
  document(document: number, weight: number): void {
    const step = document - this.before - 1
    this.before = document
    this.postings.number(step * 2 + (weight > 1 ? 1 : 0))
    if (weight > 1) this.postings.number(weight)
  }

  /** Where the document's places are written: how many, then the steps between. */
  placesOfDocument(): ByteWriter {
    return this.places
  }

  end(): void {
    this.postings.copy(this.places.done())
    this.places.length = 0
  }

  /** @param rows of all documents, in the order of their ids */
  done(rows: readonly DocumentRow[]): Uint8Array {
    const stems = stemsOf(this.terms)
    return joinSections({
      ids: dictionaryOf(rows.map(({ id }) => id)),
      moments: bytesOf(Float64Array.from(rows, ({ moment }) => moment)),
      weights: bytesOf(Uint32Array.from(rows, ({ weight }) => weight)),
      things: Uint8Array.from(rows, ({ thing }) => thing),
      terms: dictionaryOf(this.terms),
      starts: bytesOf(Uint32Array.from(this.starts)),
      postings: this.postings.done(),
      stems: dictionaryOf(stems.map(([stem]) => stem)),
      stemStarts: bytesOf(startsOf(stems.map(([, terms]) => terms.length))),
      stemTerms: bytesOf(Uint32Array.from(stems.flatMap(([, terms]) => terms))),
    })
  }
}

function stemsOf(terms: readonly string[]): [string, number[]][] {
  const stems = new Map<string, number[]>()
  for (const [at, term] of terms.entries()) {
    const stem = maybeStem(term)
    if (stem === null) continue
    const same = stems.get(stem)
    if (same) same.push(at)
    else stems.set(stem, [at])
  }
  return [...stems].sort(([one], [other]) => (one < other ? -1 : 1))
}

function startsOf(lengths: readonly number[]): Uint32Array {
  const starts = new Uint32Array(lengths.length + 1)
  for (const [at, length] of lengths.entries()) starts[at + 1] = starts[at]! + length
  return starts
}

function dictionaryOf(strings: readonly string[]): Uint8Array {
  const into = new ByteWriter(strings.length * 12)
  writeDictionary(strings, into)
  return into.done()
}

function bytesOf(numbers: Uint32Array | Float64Array): Uint8Array {
  return new Uint8Array(numbers.buffer)
}
