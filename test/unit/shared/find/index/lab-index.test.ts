import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FindDocument } from '../../../../../shared/find/document.ts'
import type { FindAnswer } from '../../../../../shared/find/index/answer.ts'
import {
  emptyIndex,
  hasForm,
  hasTraces,
  mergeNext,
  wipeNext,
  withDocuments,
  type LabIndex,
} from '../../../../../shared/find/index/lab-index.ts'
import { search } from '../../../../../shared/find/index/search.ts'
import { fromStored, toStored } from '../../../../../shared/find/index/stored.ts'
import { plainQuery, textDocument } from '../../../../support/find.ts'
import { PlainRanking } from '../../../../support/plain-ranking.ts'

const words = ['disk', 'disks', 'full', 'mount', 'mounting', '/etc/fstab', 'eth0', 'the', 'café', 'no-space']
const text = fc.array(fc.constantFrom(...words), { maxLength: 12 }).map((some) => some.join(' '))
const ids = fc.integer({ min: 0, max: 12 }).map((number) => `d${number}`)
const documents = fc.record({ id: ids, title: text, text }).map((some) => textDocument(some))
const withdrawn = (document: FindDocument, isWithdrawn = true): FindDocument => ({
  ...document,
  facts: { ...document.facts, isWithdrawn },
})
/** Some of them withdrawn. */
const anyDocuments = fc.tuple(documents, fc.boolean()).map(([one, is]) => withdrawn(one, is))

type Act =
  | { readonly act: 'put'; readonly documents: readonly FindDocument[] }
  | { readonly act: 'remove'; readonly ids: readonly string[] }
  | { readonly act: 'merge' | 'wipe' | 'restart' }
const acts: fc.Arbitrary<Act> = fc.oneof(
  fc
    .uniqueArray(anyDocuments, { selector: ({ id }) => id, minLength: 1, maxLength: 4 })
    .map((some) => ({ act: 'put' as const, documents: some })),
  fc.array(ids, { maxLength: 3 }).map((some) => ({ act: 'remove' as const, ids: some })),
  fc.constantFrom({ act: 'merge' as const }, { act: 'wipe' as const }, { act: 'restart' as const }),
)

function after(index: LabIndex, act: Act, sequence: number): LabIndex {
  switch (act.act) {
    case 'put':
      return withDocuments(index, { documents: act.documents, removed: [], sequence })
    case 'remove':
      return withDocuments(index, { documents: [], removed: act.ids, sequence })
    case 'merge':
      return mergeNext(index) ?? index
    case 'wipe':
      return wipeNext(index) ?? index
    case 'restart':
      return restarted(index)
  }
}

/** As it is after it was kept and read again. */
function restarted(index: LabIndex): LabIndex {
  const { head, put } = toStored(emptyIndex, index)
  const read = fromStored(structuredClone(head), new Map(put.map(({ name, bytes }) => [name, bytes.slice()])))
  expect(read).not.toBeNull()
  return read!
}

/** What is left of the documents when the acts are taken without an index. */
function leftAfter(done: readonly Act[]): FindDocument[] {
  const left = new Map<string, FindDocument>()
  for (const act of done) {
    if (act.act === 'put') for (const document of act.documents) left.set(document.id, document)
    if (act.act === 'remove') for (const id of act.ids) left.delete(id)
  }
  return [...left.values()]
}

function built(all: readonly FindDocument[]): LabIndex {
  return withDocuments(emptyIndex, { documents: all, removed: [], sequence: 1 })
}

const queries = [
  'disk',
  'mount full',
  'moun',
  'dsik',
  '/etc/fstab eth0',
  'the',
  'no-space cafe',
  'fullest',
].map((typed) => plainQuery(typed, true))
const answersOf = (index: LabIndex): FindAnswer[] =>
  queries.flatMap((query) => [
    search(index, query, { limit: 20 }),
    search(index, query, { limit: 20, withdrawn: true }),
  ])

describe('the index', () => {
  it('answers after any Changes, merges, wipings and restarts as one that was built anew, to the last bit', () => {
    fc.assert(
      fc.property(fc.array(acts, { maxLength: 25 }), (done) => {
        const kept = done.reduce((index, act, at) => after(index, act, at + 1), emptyIndex)
        expect(answersOf(kept)).toEqual(answersOf(built(leftAfter(done))))
      }),
      { numRuns: 200 },
    )
  })

  it('gives the scores of BM25 as it is written down', () => {
    fc.assert(
      fc.property(fc.uniqueArray(documents, { selector: ({ id }) => id, maxLength: 10 }), (all) => {
        const plain = new PlainRanking(all)
        for (const typed of ['disk', 'mounting full', 'eth0 disk disk', 'café']) {
          const { hits } = search(built(all), plainQuery(typed), { limit: 20 })
          const wanted = plain.rank(typed)
          expect(hits.map(({ id }) => id)).toEqual(wanted.map(({ id }) => id))
          for (const [at, { score }] of hits.entries()) expect(score).toBeCloseTo(wanted[at]!.score, 10)
        }
      }),
    )
  })

  it('counts half what was withdrawn, and finds it where it is asked for alone', () => {
    const some = fc.uniqueArray(anyDocuments, { selector: ({ id }) => id, maxLength: 10 })
    fc.assert(
      fc.property(some, fc.constantFrom('disk', 'mounting full'), (all, typed) => {
        const index = built(all)
        const ids = new Set(all.flatMap(({ id, facts }) => (facts.isWithdrawn ? [id] : [])))
        const plain = new PlainRanking(all).rank(typed)
        const halved = plain.map(({ id, score }) => ({ id, score: ids.has(id) ? score / 2 : score }))
        const scoresOf = (hits: FindAnswer['hits']) => new Map(hits.map(({ id, score }) => [id, score]))
        const found = search(index, plainQuery(typed), { limit: 20, withdrawn: true })
        const scores = scoresOf(found.hits)
        expect(scores.size).toBe(halved.length)
        for (const { id, score } of halved) expect(scores.get(id)).toBeCloseTo(score, 10)
        const standing = search(index, plainQuery(typed), { limit: 20 })
        const left = found.hits.filter(({ id }) => !ids.has(id))
        expect(standing.hits).toEqual(left)
        expect(standing.counts.get('source') ?? 0).toBe(left.length)
        for (const state of ['standing', 'withdrawn'] as const) {
          const filters = [{ by: 'state', state, range: { start: 0, end: 0 } }] as const
          const wanted = found.hits.filter(({ id }) => ids.has(id) === (state === 'withdrawn'))
          const query = { ...plainQuery(typed), filters }
          expect(search(index, query, { limit: 20, withdrawn: true }).hits).toEqual(wanted)
        }
      }),
    )
  })

  it('knows the forms that its documents hold, not those of documents that are gone', () => {
    const index = built([
      textDocument({ id: 'a', text: 'find / -name core' }),
      textDocument({ id: 'b', text: 'x' }),
    ])
    expect([hasForm(index, '-name'), hasForm(index, '-exec')]).toEqual([true, false])
    const later = withDocuments(index, { documents: [], removed: ['a'], sequence: 2 })
    expect(hasForm(later, '-name')).toBe(false)
  })

  it('keeps few segments however many Changes there were', () => {
    let index = emptyIndex
    for (let at = 0; at < 1000; at++) {
      const document = textDocument({ id: `d${at}`, text: `entry ${at} about disk ${at % 7}` })
      index = withDocuments(index, { documents: [document], removed: [], sequence: at })
      for (let next = mergeNext(index); next; next = mergeNext(next)) index = next
    }
    expect(index.segments.length).toBeLessThanOrEqual(24)
    expect(index.documents).toBe(1000)
  })

  it('writes little for a Change, whatever the size of the lab', () => {
    const many = Array.from({ length: 500 }, (_, at) =>
      textDocument({ id: `d${at}`, text: `${'disk full '.repeat(50)}${at}` }),
    )
    const before = built(many)
    const later = withDocuments(before, {
      documents: [textDocument({ id: 'd7', text: 'new words' })],
      removed: [],
      sequence: 2,
    })
    const { put, head } = toStored(before, later)
    expect(put.map(({ bytes }) => bytes.length)).toEqual([
      expect.toSatisfy((length: number) => length < 1000),
    ])
    expect(head.segments.map(({ name }) => name)).toEqual([before.segments[0]!.name, put[0]!.name])
  })
})

describe('what was struck out', () => {
  const secret = 'hunter2-Tr0ub4dor'
  const struck = (): LabIndex => {
    const all = Array.from({ length: 30 }, (_, at) => textDocument({ id: `d${at}`, text: `disk ${at}` }))
    const index = built([
      ...all,
      textDocument({ id: 'secret', text: `the password is ${secret}, never write it` }),
    ])
    return withDocuments(index, {
      documents: [textDocument({ id: 'secret', text: 'the password is ██' })],
      removed: [],
      sequence: 2,
    })
  }
  const wordsOf = (index: LabIndex): string[] =>
    index.segments.flatMap(({ segment }) => [...segment.terms, ...segment.stems])
  const isIn = (index: LabIndex): boolean =>
    wordsOf(index).some((word) => /hunter|tr0ub|dor/.test(word)) || /hunter/.test(rawOf(index))
  const rawOf = (index: LabIndex): string =>
    toStored(emptyIndex, index)
      .put.map(({ bytes }) => Buffer.from(bytes).toString('latin1'))
      .join()

  it('is found in the bytes before they are wiped, and not afterwards', () => {
    let index = struck()
    expect(hasTraces(index)).toBe(true)
    expect(isIn(index)).toBe(true)
    for (let next = wipeNext(index); next; next = wipeNext(next)) index = next
    expect(hasTraces(index)).toBe(false)
    expect(isIn(index)).toBe(false)
    expect(search(index, plainQuery('disk'), { limit: 100 }).hits).toHaveLength(30)
  })

  it('leaves the place where segments are kept', () => {
    const before = struck()
    const step = toStored(before, wipeNext(before)!)
    expect(step.head.segments.map(({ name }) => name)).not.toContain(before.segments[0]!.name)
  })
})

describe('an index as it was kept', () => {
  const index = built([
    textDocument({ id: 'a', text: 'disk full' }),
    textDocument({ id: 'b', text: 'mount' }),
  ])
  const { head, put } = toStored(emptyIndex, index)
  const [{ name, bytes } = { name: 0, bytes: new Uint8Array() }] = put

  it('is not taken where it is damaged, missing or of another format', () => {
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
        const damaged = bytes.slice()
        damaged[at]! ^= by
        expect(fromStored(head, new Map([[name, damaged]]))).toBeNull()
      }),
    )
    expect(fromStored(head, new Map([[name, bytes.slice(0, -4)]]))).toBeNull()
    expect(fromStored(head, new Map())).toBeNull()
    expect(fromStored(null, new Map([[name, bytes]]))).toBeNull()
    expect(fromStored({ ...head, format: 0 }, new Map([[name, bytes]]))).toBeNull()
    expect(fromStored(head, new Map([[name, bytes]]))).not.toBeNull()
  })
})
