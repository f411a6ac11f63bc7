/** Documents in which words stand one behind the other. */
import type { AskedPhrase } from './asked.ts'
import { allBits, hasBit, keepCommon, noBits, setBit, type Bits } from './bits.ts'
import type { Segment } from './segment.ts'

/** Documents that hold the phrase, gone ones too. None for a phrase without words. */
export function findPhrase(segment: Segment, phrase: AskedPhrase): Bits {
  const none = noBits(segment.length)
  const terms = phrase.map(({ form, at }) => ({ at, term: segment.terms.find(form) }))
  if (terms.length === 0 || terms.some(({ term }) => term < 0)) return none
  const all = allBits(segment.length)
  for (const { term } of terms) keepCommon(all, holdersOf(segment, term))
  if (terms.length === 1) return all
  // Where the phrase may still start, document by document.
  let starts: Map<number, number[]> | null = null
  for (const { term, at } of terms) starts = withStarts(segment, term, at, all, starts)
  for (const document of starts!.keys()) setBit(none, document)
  return none
}

function holdersOf(segment: Segment, term: number): Bits {
  const bits = noBits(segment.length)
  for (const postings = segment.postingsOf(term); postings.next();) setBit(bits, postings.document)
  return bits
}

/** Of the starts so far (null for any) those at which the term stands so many places behind. */
function withStarts(
  segment: Segment,
  term: number,
  behind: number,
  within: Bits,
  before: ReadonlyMap<number, readonly number[]> | null,
): Map<number, number[]> {
  const left = new Map<number, number[]>()
  const reader = segment.postingsOf(term).places()
  for (const postings = segment.postingsOf(term); postings.next();) {
    const { document } = postings
    const count = reader.number()
    const possible = before === null ? null : before.get(document)
    if (possible === undefined || !hasBit(within, document)) {
      reader.skip(count)
      continue
    }
    const known = possible === null ? null : new Set(possible)
    const starts: number[] = []
    for (let place = 0, at = 0; at < count; at++) {
      place += reader.number()
      if (known === null || known.has(place - behind)) starts.push(place - behind)
    }
    if (starts.length > 0) left.set(document, starts)
  }
  return left
}
