/** The index of a lab alone in a page: no worker, no store, no screen. */
import type { FindDocument } from '../../../shared/find/document.ts'
import { emptyIndex, mergeNext, withDocuments, type LabIndex } from '../../../shared/find/index/lab-index.ts'
import { search } from '../../../shared/find/index/search.ts'
import { readQuery } from '../../../shared/find/query/read-query.ts'

export interface BareIndex {
  add(documents: readonly FindDocument[]): void
  /** Milliseconds for reading what was typed and searching for it; and how many hits there are. */
  time(typed: string, limit: number): { readonly ms: number; readonly hits: number }
}

let index: LabIndex = emptyIndex

const bare: BareIndex = {
  add(documents) {
    index = withDocuments(index, { documents, removed: [], sequence: 0 })
    for (let merged = mergeNext(index, Infinity); merged; merged = mergeNext(index, Infinity)) index = merged
  },
  time(typed, limit) {
    const before = performance.now()
    const query = readQuery(typed, { now: 0, offsetAt: () => 0, projects: [] })
    const { hits } = search(index, query, { limit })
    return { ms: performance.now() - before, hits: hits.length }
  },
}

;(globalThis as unknown as { bareIndex: BareIndex }).bareIndex = bare
