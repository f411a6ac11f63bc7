/** Makes a segment of documents. */
import { findFields, fieldWeights, foundThings, type FindDocument, type FindFacts } from '../document.ts'
import { compareText } from '../tag-terms.ts'
import { toWords } from '../tokens.ts'
import { fold } from './fold.ts'
import { toWordForms } from './forms.ts'
import { FACT, WITHDRAWN } from './segment.ts'
import { SegmentWriter, type DocumentRow } from './segment-writer.ts'

/** So many places lie between two fields and between two commands or tags, so that no phrase reaches across. */
const APART = 64

/** @param documents with ids that differ */
export function buildSegment(documents: readonly FindDocument[]): Uint8Array {
  const sorted = [...documents].sort((one, other) => compareText(one.id, other.id))
  const read = new Occurrences()
  return read.write(sorted.map((document) => read.addDocument(document)))
}

/** What a word of the texts gives: numbers of terms, how far behind its own place each stands, and how wide it is. */
interface KnownWord {
  readonly terms: readonly number[]
  readonly at: readonly number[]
  readonly width: number
}

/** Every place where a term stands, in the order of documents: four numbers each. */
class Occurrences {
  private readonly numbers = new Map<string, number>()
  private readonly names: string[] = []
  private readonly words = new Map<string, KnownWord>()
  /** Term, document, place, weight; place 2^32 - 1 for a fact. */
  private rows = new Uint32Array(1 << 14)
  private length = 0
  private document = -1

  addDocument({ id, thing, title, technical, tags, text, facts }: FindDocument): DocumentRow {
    this.document++
    const parts = { title: [title], technical, tags, text: [text] }
    let place = 0
    let weight = 0
    for (const field of findFields)
      for (const part of parts[field]) {
        if (part === '') continue
        const [end, words] = this.addText(part, place, fieldWeights[field])
        place = end + APART
        weight += words * fieldWeights[field]
      }
    for (const fact of toFacts(tags, facts)) this.add(this.numberOf(FACT + fact), NO_PLACE, 1)
    return { id, weight, thing: foundThings.indexOf(thing), moment: facts.moment ?? NaN }
  }

  /** @returns the place behind the text, and how many terms stand in it */
  private addText(text: string, from: number, weight: number): [end: number, terms: number] {
    let place = from
    let count = 0
    for (const { written } of toWords(text)) {
      const { terms, at, width } = this.wordOf(written)
      for (let of = 0; of < terms.length; of++) this.add(terms[of]!, place + at[of]!, weight)
      place += width
      count += terms.length
    }
    return [place, count]
  }

  private wordOf(written: string): KnownWord {
    let word = this.words.get(written)
    if (!word) {
      const { forms, width } = toWordForms(written)
      word = { terms: forms.map(({ form }) => this.numberOf(form)), at: forms.map(({ at }) => at), width }
      this.words.set(written, word)
    }
    return word
  }

  private numberOf(term: string): number {
    let number = this.numbers.get(term)
    if (number === undefined) {
      this.numbers.set(term, (number = this.names.length))
      this.names.push(term)
    }
    return number
  }

  private add(term: number, place: number, weight: number): void {
    if (this.length + 4 > this.rows.length) {
      const grown = new Uint32Array(this.rows.length * 2)
      grown.set(this.rows)
      this.rows = grown
    }
    const { rows } = this
    rows[this.length++] = term
    rows[this.length++] = this.document
    rows[this.length++] = place
    rows[this.length++] = weight
  }

  write(documents: readonly DocumentRow[]): Uint8Array {
    const { starts, order } = this.byTerm()
    const into = new SegmentWriter()
    const terms = this.names.map((name, at) => ({ name, at }))
    terms.sort((one, other) => compareText(one.name, other.name))
    for (const { name, at } of terms) this.writeTerm(name, order.subarray(starts[at], starts[at + 1]), into)
    return into.done(documents)
  }

  /** The rows of each term one behind the other, each term's in their own order: a counting sort. */
  private byTerm(): { readonly starts: Uint32Array; readonly order: Uint32Array } {
    const starts = new Uint32Array(this.names.length + 1)
    for (let at = 0; at < this.length; at += 4) starts[this.rows[at]! + 1]!++
    for (let term = 0; term < this.names.length; term++) starts[term + 1]! += starts[term]!
    const order = new Uint32Array(this.length / 4)
    const next = starts.slice()
    for (let at = 0; at < this.length; at += 4) order[next[this.rows[at]!]!++] = at
    return { starts, order }
  }

  private writeTerm(name: string, order: Uint32Array, into: SegmentWriter): void {
    const { rows } = this
    let documents = 0
    for (let at = 0, before = -1; at < order.length; at++) {
      const document = rows[order[at]! + 1]!
      if (document !== before) documents++
      before = document
    }
    const hasPlaces = !name.startsWith(FACT)
    into.begin(name, documents, hasPlaces)
    for (let start = 0, end = 0; start < order.length; start = end) {
      const document = rows[order[start]! + 1]!
      let weight = 0
      for (; end < order.length && rows[order[end]! + 1] === document; end++) weight += rows[order[end]! + 3]!
      into.document(document, hasPlaces ? weight : 1)
      if (hasPlaces) this.writePlaces(order.subarray(start, end), into)
    }
    into.end()
  }

  private writePlaces(order: Uint32Array, into: SegmentWriter): void {
    const places = into.placesOfDocument()
    places.number(order.length)
    let before = 0
    for (const at of order) {
      const place = this.rows[at + 2]!
      places.number(place - before)
      before = place
    }
  }
}

const NO_PLACE = 0xffffffff

/** The facts of a document as terms; allowed.ts asks for them. */
function toFacts(tags: readonly string[], { kind, projects, places, isWithdrawn }: FindFacts): string[] {
  return [
    ...tags.map((tag) => `tag=${fold(tag)}`),
    ...(kind === null ? [] : [`kind=${kind}`]),
    ...projects.map((project) => `in=${project}`),
    ...places.map((place) => `place=${fold(place)}`),
    ...(isWithdrawn ? [WITHDRAWN] : []),
  ]
}
