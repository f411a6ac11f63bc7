/** The documents that hold any of some terms, and how much these weigh there together. */
import { hasBit } from './bits.ts'
import type { LiveSegment } from './lab-index.ts'

/** Of one segment. Both lists are equally long; documents in no certain order, each once. */
export interface Holders {
  readonly documents: Uint32Array
  readonly weights: Uint32Array
}

export const noHolders: Holders = { documents: new Uint32Array(0), weights: new Uint32Array(0) }

/** @param terms numbers of terms of the segment, each once */
export function gather(live: LiveSegment, terms: ArrayLike<number>): Holders {
  const first = terms[0]
  if (first === undefined) return noHolders
  return terms.length === 1 ? gatherOne(live, first) : gatherAll(live, terms)
}

function gatherOne({ segment, gone }: LiveSegment, term: number): Holders {
  const postings = segment.postingsOf(term)
  const documents = new Uint32Array(postings.count)
  const weights = new Uint32Array(postings.count)
  let length = 0
  while (postings.next()) {
    if (gone !== null && hasBit(gone, postings.document)) continue
    documents[length] = postings.document
    weights[length++] = postings.weight
  }
  return { documents: documents.subarray(0, length), weights: weights.subarray(0, length) }
}

function gatherAll({ segment, gone }: LiveSegment, terms: ArrayLike<number>): Holders {
  const sums = new Uint32Array(segment.length)
  const touched = new Uint32Array(segment.length)
  let length = 0
  for (let at = 0; at < terms.length; at++) {
    const postings = segment.postingsOf(terms[at]!)
    while (postings.next()) {
      const { document } = postings
      if (gone !== null && hasBit(gone, document)) continue
      if (sums[document] === 0) touched[length++] = document
      sums[document]! += postings.weight
    }
  }
  const documents = touched.subarray(0, length)
  return { documents, weights: documents.map((document) => sums[document]!) }
}

/** Says whether any document that is left holds a term. */
export function isHeld({ segment, gone }: LiveSegment, term: number): boolean {
  if (gone === null) return true
  const postings = segment.postingsOf(term)
  while (postings.next()) if (!hasBit(gone, postings.document)) return true
  return false
}
