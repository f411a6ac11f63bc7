import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FindDocument } from '../../../../../shared/find/document.ts'
import {
  emptyIndex,
  mergeNext,
  wipeNext,
  withDocuments,
  type LabIndex,
} from '../../../../../shared/find/index/lab-index.ts'
import { search } from '../../../../../shared/find/index/search.ts'
import { findBasis } from '../../../../../shared/find/meaning/basis.ts'
import {
  fromKept,
  learnFrom,
  placeNext,
  toMeaningStep,
  type LabMeaning,
} from '../../../../../shared/find/meaning/lab-meaning.ts'
import { isOutgrown } from '../../../../../shared/find/meaning/meaning.ts'
import { draw, seededNumbers } from '../../../../support/drawing.ts'
import { plainQuery, textDocument } from '../../../../support/find.ts'

const built = (documents: readonly FindDocument[]): LabIndex =>
  withDocuments(emptyIndex, { documents, removed: [], sequence: 1 })

function placed(index: LabIndex): LabMeaning {
  let lab = learnFrom(index)
  for (let next = placeNext(lab, index); next; next = placeNext(lab, index)) lab = next
  return lab
}

/** Two subjects, each with words of its own, half of them in each text. */
const subjects = [
  'disk volume partition filesystem storage space block device full inode',
  'cable switch router uplink vlan packet trunk latency port bridge',
].map((words) => words.split(' '))
const next = seededNumbers(3)
const texts = Array.from({ length: 60 }, (_, at) =>
  textDocument({ id: `t${String(at).padStart(2, '0')}`, text: draw(subjects[at % 2]!, 4, next).join(' ') }),
)

describe('meaning', () => {
  it('brings words together that stand with the same words', () => {
    const index = built([
      ...texts,
      textDocument({ id: 'wanted', text: 'storage block inode' }),
      textDocument({ id: 'other', text: 'uplink trunk bridge' }),
    ])
    const idsOf = (meaning: LabMeaning | null): string[] =>
      search(index, plainQuery('partition volume'), { limit: 100 }, meaning).hits.map(({ id }) => id)
    expect(idsOf(null)).not.toContain('wanted')
    expect(idsOf(placed(index))).toContain('wanted')
    expect(idsOf(placed(index))).not.toContain('other')
  })

  it('is the same to the last bit however the index came to hold its documents', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(texts.length - 1), { maxLength: 40 }), fc.nat(3), (touched, merges) => {
        let kept = built(texts.map(({ id }) => textDocument({ id, text: 'a former state of this' })))
        for (const at of touched)
          kept = withDocuments(kept, { documents: [texts[at]!], removed: [], sequence: 2 })
        kept = withDocuments(kept, { documents: texts, removed: [], sequence: 3 })
        for (let merge = 0; merge < merges; merge++) kept = mergeNext(kept) ?? kept
        const [ours, anew] = [placed(kept), placed(built(texts))]
        expect(ours.meaning.words).toEqual(anew.meaning.words)
        expect(ours.meaning.vectors).toEqual(anew.meaning.vectors)
        const query = plainQuery('partition latency')
        expect(search(kept, query, { limit: 60 }, ours).hits).toEqual(
          search(built(texts), query, { limit: 60 }, anew).hits,
        )
      }),
      { numRuns: 20 },
    )
  })

  it('places documents that were not placed beforehand as those that were', () => {
    const index = built(texts)
    const query = plainQuery('router')
    const late = search(index, query, { limit: 60 }, learnFrom(index))
    expect(late.hits).toEqual(search(index, query, { limit: 60 }, placed(index)).hits)
  })

  it('knows nothing of words that were wiped', () => {
    const secret = texts.map(({ id, text }) => textDocument({ id, text: `${text} sesame` })).slice(0, 3)
    let index = withDocuments(built([...texts, ...secret.map((one) => ({ ...one, id: `s${one.id}` }))]), {
      documents: [],
      removed: secret.map(({ id }) => `s${id}`),
      sequence: 2,
    })
    expect(learnFrom(index).meaning.words).not.toContain('sesam')
    index = wipeNext(index)!
    expect(learnFrom(index).meaning.words).not.toContain('sesam')
  })

  it('is kept with the places of new segments alone, and not read where it is damaged', () => {
    const before = built(texts)
    const lab = placed(before)
    const index = withDocuments(before, {
      documents: [textDocument({ id: 'n', text: 'disk' })],
      removed: [],
      sequence: 2,
    })
    const later = placeNext(lab, index)!
    const step = toMeaningStep(lab, later)
    expect([step.meaning, step.put.map(({ name }) => name), step.remove]).toEqual([null, [2], []])
    expect(fromKept(structuredClone(later.meaning), later.places)?.meaning).toEqual(later.meaning)
    expect(fromKept({ ...later.meaning, vectors: new Float32Array(3) }, later.places)).toBeNull()
    expect(fromKept(null, new Map())).toBeNull()
  })

  it('is outgrown when much has changed', () => {
    const { meaning } = learnFrom(built(texts))
    expect(isOutgrown(meaning, built(texts), 6)).toBe(false)
    expect(isOutgrown(meaning, built(texts), 7)).toBe(true)
    expect(isOutgrown(meaning, built(texts.slice(10)), 0)).toBe(true)
  })

  it('of an empty lab is nothing, and harms nothing', () => {
    const lab = learnFrom(emptyIndex)
    expect(search(emptyIndex, plainQuery('disk'), { limit: 5 }, lab).hits).toEqual([])
    const one = built([textDocument({ id: 'a', text: 'disk' })])
    expect(search(one, plainQuery('disk'), { limit: 5 }, learnFrom(one)).hits).toHaveLength(1)
  })
})

describe('a basis', () => {
  it('spans the greatest singular vectors, each of length 1 and square to the others', () => {
    // Two blocks of words: within each one direction, with singular values 3·√2 and 1·√2.
    const dense = [
      [3, 0],
      [3, 0],
      [0, 1],
      [0, 1],
    ]
    const cells = dense.flatMap((row) =>
      row.flatMap((weight, column) => (weight === 0 ? [] : [{ column, weight }])),
    )
    const basis = findBasis(
      {
        words: 4,
        documents: 2,
        starts: Uint32Array.from([0, 1, 2, 3, 4]),
        columns: Uint32Array.from(cells, ({ column }) => column),
        weights: Float32Array.from(cells, ({ weight }) => weight),
      },
      3,
    )
    const columnOf = (at: number): number[] => [0, 1, 2, 3].map((row) => basis[row * 3 + at]!)
    const product = (one: number[], other: number[]): number =>
      one.reduce((sum, value, at) => sum + value * other[at]!, 0)
    expect(product(columnOf(0), columnOf(0))).toBeCloseTo(1, 5)
    expect(product(columnOf(1), columnOf(1))).toBeCloseTo(1, 5)
    expect(product(columnOf(0), columnOf(1))).toBeCloseTo(0, 5)
    // There are no more than two directions.
    expect(columnOf(2)).toEqual([0, 0, 0, 0])
    // The projection on the span keeps (1, 1, 0, 0) and (0, 0, 1, 1).
    for (const kept of [
      [1, 1, 0, 0],
      [0, 0, 1, 1],
    ]) {
      const shares = [0, 1].map((at) => product(columnOf(at), kept))
      expect(shares.reduce((sum, share) => sum + share ** 2, 0)).toBeCloseTo(2, 4)
    }
  })
})
