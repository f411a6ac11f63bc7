import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { PartId, RevisionId } from '../../../../../shared/lab/ids.ts'
import { changeText } from '../../../../../shared/lab/text.ts'
import { keepingParts, partsIn } from '../../../../../shared/procedure/review/document.ts'
import { mendWords } from '../../../../../shared/procedure/review/mending.ts'
import { reviewedDocument, reviewedPart, reviewedRow } from '../../../../support/reviewed.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

describe('mending words', () => {
  it('puts each insert in its place, whatever the order in which the edits come', () => {
    const part = 'a part' as PartId
    const cuts = fc.uniqueArray(fc.nat(40), { minLength: 2, maxLength: 8 })
    const insert = fc.constantFrom('', 'x', 'two\nlines')
    fc.assert(
      fc.property(
        fc.string({ minLength: 40, maxLength: 60 }),
        cuts,
        insert,
        fc.boolean(),
        (raw, at, words, isTurned) => {
          const text = raw.replace(/[^a-z ]/g, 'o')
          const places = [...at].sort((a, b) => a - b)
          const edits = places.flatMap((start, i) =>
            i % 2 === 0 && places[i + 1] !== undefined
              ? [{ part, start, end: places[i + 1]!, insert: words }]
              : [],
          )
          let wanted = ''
          let done = 0
          for (const { start, end } of edits) {
            wanted += text.slice(done, start) + words
            done = end
          }
          wanted += text.slice(done)
          const given = isTurned ? [...edits].reverse() : edits
          const standing = { part, text, revision: 'a revision' as RevisionId }
          const { act, operations } = mendWords(repeatableSurroundings(), given, [standing])
          expect(act).toBe('mend a finding')
          expect(operations).toHaveLength(1)
          const [operation] = operations
          expect(operation?.op === 'text' && changeText(text, operation.changeSet)).toBe(wanted)
        },
      ),
    )
  })

  it('writes one revision for each part that is edited, and leaves others alone', () => {
    const texts = ['a', 'b', 'c'].map((id) => ({
      part: id as PartId,
      text: 'please wait',
      revision: `${id} 1` as RevisionId,
    }))
    const edits = [
      { part: 'a' as PartId, start: 0, end: 7, insert: '' },
      { part: 'c' as PartId, start: 7, end: 11, insert: 'go' },
    ]
    const { operations } = mendWords(repeatableSurroundings(), edits, texts)
    expect(operations.map((one) => (one.op === 'text' ? [one.node.id, one.fromRevision] : []))).toEqual([
      ['a', 'a 1'],
      ['c', 'c 1'],
    ])
  })
})

describe('a document that was copied on its way', () => {
  it('has the parts of the one before again, but for those that changed', () => {
    const file = { path: '/etc/chrony.conf', owner: 'root', group: null, mode: null } as never
    const parts = [
      reviewedPart('do', 'Wait.'),
      reviewedPart('file', 'pool', 0, file),
      reviewedPart('do', 'Go.'),
    ]
    const before = reviewedDocument({
      parts: [reviewedPart('purpose', 'To wait.')],
      rows: [reviewedRow('1', { parts })],
    })
    const copied = structuredClone(before)
    const [row] = copied.rows
    const changed = {
      ...row!,
      parts: row!.parts.map((one, i) => (i === 2 ? { ...one, text: 'Stop.' } : one)),
    }
    const next = { ...copied, rows: [changed] }
    const kept = keepingParts(next, before)
    expect(kept).toEqual(next)
    expect(partsIn(kept).map((one, i) => one === partsIn(before)[i])).toEqual([true, true, true, false])
  })
})
