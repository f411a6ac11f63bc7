/** What ships, and the same with meaning. */
import type { FindDocument } from '../../../shared/find/document.ts'
import { emptyIndex, mergeNext, withDocuments, type LabIndex } from '../../../shared/find/index/lab-index.ts'
import { search } from '../../../shared/find/index/search.ts'
import { fromStored, toStored, type StoredHead } from '../../../shared/find/index/stored.ts'
import { learnFrom, placeNext, type LabMeaning } from '../../../shared/find/meaning/lab-meaning.ts'
import { plainQuery } from '../../support/find.ts'
import type { Asked, SearchLibrary } from './find-libraries.ts'

interface Saved {
  readonly head: StoredHead
  readonly segments: ReadonlyMap<number, Uint8Array>
  readonly meaning: LabMeaning | null
}

export class Ours implements SearchLibrary {
  private index: LabIndex = emptyIndex
  private meaning: LabMeaning | null = null
  constructor(private readonly hasMeaning: boolean) {}

  add(documents: readonly FindDocument[]): void {
    this.index = withDocuments(this.index, { documents, removed: [], sequence: 1 })
    this.tidy(Infinity)
  }

  finish(): void {
    if (this.hasMeaning) this.meaning = learnFrom(this.index)
    this.place()
  }

  replace(_: FindDocument, after: FindDocument): void {
    this.index = withDocuments(this.index, { documents: [after], removed: [], sequence: 2 })
    this.tidy(1 << 20)
    this.place()
  }

  /** Words that nothing holds are always taken for misspelt. */
  search({ typed, isTyping, limit }: Asked): string[] {
    return search(this.index, plainQuery(typed, isTyping), { limit }, this.meaning).hits.map(({ id }) => id)
  }

  save(): Saved {
    const { head, put } = toStored(emptyIndex, this.index)
    return { head, segments: new Map(put.map(({ name, bytes }) => [name, bytes])), meaning: this.meaning }
  }

  load(saved: unknown): void {
    const { head, segments, meaning } = saved as Saved
    this.index = fromStored(head, segments)!
    this.meaning = meaning
  }

  sizeOf(saved: unknown): number {
    const { segments, meaning } = saved as Saved
    const places = [...(meaning?.places.values() ?? []), ...(meaning ? [meaning.meaning.vectors] : [])]
    return [...segments.values(), ...places].reduce((sum, { byteLength }) => sum + byteLength, 0)
  }

  private tidy(mostBytes: number): void {
    for (let next = mergeNext(this.index, mostBytes); next; next = mergeNext(next, mostBytes))
      this.index = next
  }

  private place(): void {
    for (let next = this.meaning; next; next = placeNext(next, this.index)) this.meaning = next
  }
}
