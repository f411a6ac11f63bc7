/** Keeps the best of many candidates: a heap with the worst of them on top. */
import type { LiveSegment } from './lab-index.ts'

export interface Candidate {
  /** Places in the index's segments and in the segment's documents. */
  readonly segment: number
  readonly document: number
  readonly score: number
}

interface Kept extends Candidate {
  /** What it is sorted by before its id: greater is better. */
  readonly key: number
}

export class BestHits {
  private readonly heap: Kept[] = []

  constructor(
    private readonly segments: readonly LiveSegment[],
    readonly limit: number,
    private readonly order: 'best' | 'oldest' | 'newest',
  ) {}

  /** A segment's documents come in order. @param score as in {@link Candidate} */
  add(segment: number, document: number, score: number): void {
    if (this.limit <= 0) return
    const key = this.keyOf(segment, document, score)
    const worst = this.heap.length < this.limit ? undefined : this.heap[0]!
    if (worst && key < worst.key) return
    const kept = { segment, document, score, key }
    if (!worst) {
      this.heap.push(kept)
      this.rise(this.heap.length - 1)
    } else if (this.isBetter(kept, worst)) {
      this.heap[0] = kept
      this.sink()
    }
  }

  /** What the last of the best is sorted by; -Infinity while there is room for more. */
  get least(): number {
    return this.heap.length < this.limit || this.limit <= 0 ? -Infinity : this.heap[0]!.key
  }

  /** The best first. */
  done(): Candidate[] {
    return [...this.heap].sort((one, other) => (this.isBetter(one, other) ? -1 : 1))
  }

  private keyOf(segment: number, document: number, score: number): number {
    if (this.order === 'best') return score
    const moment = this.segments[segment]!.segment.moments[document]!
    if (Number.isNaN(moment)) return -Infinity
    return this.order === 'newest' ? moment : -moment
  }

  private isBetter(one: Kept, other: Kept): boolean {
    if (one.key !== other.key) return one.key > other.key
    // Within a segment documents are numbered in the order of their ids.
    if (one.segment === other.segment) return one.document < other.document
    return this.idOf(one) < this.idOf(other)
  }

  private idOf({ segment, document }: Candidate): string {
    return this.segments[segment]!.segment.ids.get(document)
  }

  private rise(from: number): void {
    const { heap } = this
    for (let at = from; at > 0;) {
      const above = (at - 1) >> 1
      if (!this.isBetter(heap[above]!, heap[at]!)) return
      this.swap(at, above)
      at = above
    }
  }

  private sink(): void {
    const { heap } = this
    for (let at = 0; ;) {
      let worst = at
      for (const below of [2 * at + 1, 2 * at + 2])
        if (below < heap.length && this.isBetter(heap[worst]!, heap[below]!)) worst = below
      if (worst === at) return
      this.swap(at, worst)
      at = worst
    }
  }

  private swap(one: number, other: number): void {
    const { heap } = this
    const kept = heap[one]!
    heap[one] = heap[other]!
    heap[other] = kept
  }
}
