/**
 * How often words stand in documents, as meaning is learnt from it. Read out of the index alone, so that nothing that left
 * the index is learnt from, and the same for the same documents however the index came to hold them.
 */
import { compareText } from '../tag-terms.ts'
import { hasBit } from '../index/bits.ts'
import { gather } from '../index/gather.ts'
import type { LabIndex, LiveSegment } from '../index/lab-index.ts'

/** Of each word, in order of words, the documents that hold it with how often they do, in order of ids. */
export interface TermMatrix {
  readonly words: readonly string[]
  readonly documents: number
  /** Word by word one behind the other; word `at` from `starts[at]` to before `starts[at + 1]`. */
  readonly starts: Uint32Array
  readonly columns: Uint32Array
  readonly counts: Uint32Array
}

/** So many words of text are learnt from at most; of a larger lab a share of the documents, drawn by their ids. */
const MOST_LEARNT = 1_500_000
/** So many words have a meaning at most: the commonest. */
const MOST_WORDS = 20_000
/** A word of one document says nothing of others. */
const FEWEST_DOCUMENTS = 2
/** A word of more than this share of the documents says nothing either. */
const MOST_DOCUMENTS = 0.5

export function toTermMatrix(index: LabIndex): TermMatrix {
  const numbers = drawDocuments(index)
  const documents = numbers.reduce((sum, { count }) => sum + count, 0)
  const rows = new Map<string, [column: number, count: number][]>()
  for (const [at, live] of index.segments.entries()) addRows(live, numbers[at]!.columns, rows)
  const kept = [...rows]
    .filter(([, row]) => row.length >= FEWEST_DOCUMENTS && row.length < documents * MOST_DOCUMENTS)
    .sort(([one, ofOne], [other, ofOther]) => ofOther.length - ofOne.length || compareText(one, other))
    .slice(0, MOST_WORDS)
    .sort(([one], [other]) => compareText(one, other))
  for (const [, row] of kept) row.sort(([one], [other]) => one - other)
  const starts = new Uint32Array(kept.length + 1)
  for (const [at, [, row]] of kept.entries()) starts[at + 1] = starts[at]! + row.length
  const cells = kept.flatMap(([, row]) => row)
  return {
    words: kept.map(([word]) => word),
    documents,
    starts,
    columns: Uint32Array.from(cells, ([column]) => column),
    counts: Uint32Array.from(cells, ([, count]) => count),
  }
}

interface Drawn {
  /** The column of each of a segment's documents; -1 for those that are not learnt from. */
  readonly columns: Int32Array
  readonly count: number
}

/** Numbers the documents that are learnt from in the order of their ids. */
function drawDocuments(index: LabIndex): Drawn[] {
  let share = 1
  while (index.weight * share > MOST_LEARNT) share /= 2
  const drawn: { readonly id: string; readonly segment: number; readonly document: number }[] = []
  for (const [segment, { segment: own, gone }] of index.segments.entries()) {
    let document = 0
    for (const id of own.ids) {
      if (!(gone && hasBit(gone, document)) && drawOf(id) < share) drawn.push({ id, segment, document })
      document++
    }
  }
  drawn.sort((one, other) => compareText(one.id, other.id))
  const numbers = index.segments.map(({ segment }) => ({
    columns: new Int32Array(segment.length).fill(-1),
    count: 0,
  }))
  for (const [column, { segment, document }] of drawn.entries()) {
    numbers[segment]!.columns[document] = column
    numbers[segment]!.count++
  }
  return numbers
}

/** A number from 0 to 1, exclusive, that an id alone decides (FNV-1a, its bits then mixed as MurmurHash3 ends). */
function drawOf(id: string): number {
  let hash = 0x811c9dc5
  for (let at = 0; at < id.length; at++) hash = Math.imul(hash ^ id.charCodeAt(at), 0x01000193)
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b)
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35)
  return ((hash ^ (hash >>> 16)) >>> 0) / 4294967296
}

function addRows(live: LiveSegment, columns: Int32Array, rows: Map<string, [number, number][]>): void {
  for (const stem of live.segment.stems) {
    const { documents, weights } = gather(live, live.segment.termsOfStem(stem))
    for (let at = 0; at < documents.length; at++) {
      const column = columns[documents[at]!]!
      if (column < 0) continue
      const row = rows.get(stem)
      if (row) row.push([column, weights[at]!])
      else rows.set(stem, [[column, weights[at]!]])
    }
  }
}
