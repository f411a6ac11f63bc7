import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { EntryId, LinkId, PartId, RevisionId } from '../../../../shared/lab/ids.ts'
import type { Link, LinkEnd, LinkNode, Piece, Range } from '../../../../shared/lab/model.ts'
import { changeBetween, changeText, replacing } from '../../../../shared/lab/text.ts'
import { olderText } from '../../../../shared/provenance/alignment/olderText.ts'
import {
  deriveEnd,
  deriveLinkState,
  isAstray,
  type PresentText,
} from '../../../../shared/provenance/linkState.ts'
import { advancePieces, slicePieces } from '../../../../shared/provenance/pieces.ts'
import { makeSelector } from '../../../../shared/provenance/selectors.ts'

const [r1, r2, r3] = ['r1', 'r2', 'r3'] as RevisionId[] as [RevisionId, RevisionId, RevisionId]
const part = { kind: 'part', id: 'p' as PartId } as const
const entry = { kind: 'entry', id: 'e' as EntryId } as const

const fresh = (text: string, revision = r1) => ({
  text,
  pieces: [{ revision, start: 0, end: text.length }] as Piece[],
})
const endAt = (node: LinkNode, text: string, ranges: readonly Range[]): LinkEnd => ({
  node,
  revision: r1,
  ranges: ranges.map((range) => makeSelector(text, range)),
})

/** Edits a text one after the other, each a replacement of a range. */
function edit(
  from: NonNullable<PresentText>,
  edits: readonly [number, number, string][],
): NonNullable<PresentText> {
  return edits.reduce((now, [start, end, insert], i) => {
    const clip = (at: number): number => Math.min(at, now.text.length)
    const changeSet = replacing(now.text.length, { start: clip(start), end: clip(end) }, insert)
    const revision = [r2, r3][i]!
    return {
      text: changeText(now.text, changeSet),
      pieces: advancePieces(now.pieces, changeSet, revision, null),
    }
  }, from)
}

/** The state of a link whose words were carried whole from an entry, when the part reads differently now. */
function stateWhen(carried: string, newer: string, ranges: readonly Range[], present: PresentText) {
  const link: Link = {
    ...{ id: 'l' as LinkId, made: '' as never, way: 'drag' },
    newer: endAt(part, newer, ranges),
    older: endAt(entry, carried, [{ start: 0, end: carried.length }]),
  }
  const pieces = ranges.map((range) => slicePieces(fresh(newer).pieces, range))
  const older = deriveEnd(link.older, [fresh(carried).pieces], fresh(carried))
  return deriveLinkState(link, deriveEnd(link.newer, pieces, present), older, present)
}

describe('the place of an end', () => {
  const text = 'As root: stop the logger now.'
  const range = { start: 9, end: 24 }
  const placeIn = (present: PresentText) =>
    deriveEnd(endAt(part, text, [range]), [slicePieces(fresh(text).pieces, range)], present).places[0]

  it('moves with its characters and leaves out what is typed before and behind', () => {
    expect(
      placeIn(
        edit(fresh(text), [
          [0, 0, '# '],
          [26, 26, ' gently'],
        ]),
      ),
    ).toEqual({ start: 11, end: 26 })
  })

  it('spans what is typed within it', () => {
    expect(placeIn(edit(fresh(text), [[13, 13, ' first']]))).toEqual({ start: 9, end: 30 })
  })

  it('widens to the exact words where one of them was deleted and typed again', () => {
    expect(
      placeIn(
        edit(fresh(text), [
          [9, 13, ''],
          [9, 9, 'stop'],
        ]),
      ),
    ).toEqual(range)
  })

  it('is found by quote once none of its characters is left, and only without doubt', () => {
    expect(
      placeIn(
        edit(fresh(text), [
          [0, 29, ''],
          [0, 0, 'Now: stop the logger!'],
        ]),
      ),
    ).toEqual({ start: 5, end: 20 })
    expect(placeIn(edit(fresh(text), [[0, 29, 'stop the logger, stop the logger']]))).toBe(null)
    expect(placeIn(edit(fresh(text), [[0, 29, 'Halt.']]))).toBe(null)
    expect(placeIn(null)).toBe(null)
  })

  it('has a score where its words were found again, and none where characters tell it', () => {
    const state = (present: PresentText) =>
      deriveEnd(endAt(part, text, [range]), [slicePieces(fresh(text).pieces, range)], present)
    expect(state(edit(fresh(text), [[0, 0, '# ']]))).not.toHaveProperty('score')
    expect(state(fresh(text, r2))).toMatchObject({ places: [range], loose: false, score: 1 })
    const reworded = 'Beware. As root: stop the old logger now.'
    expect(state(fresh(reworded, r2))).toMatchObject({ places: [{ start: 17, end: 36 }], loose: false })
    expect(state(fresh(reworded, r2)).score).toBeLessThan(1)
    expect(state(fresh('Halt.', r2))).toMatchObject({ places: [null], loose: true })
    expect(state(fresh('Halt.', r2))).not.toHaveProperty('score')
  })

  it('is the copy that was carried once none of its characters is left, where the text of then is known', () => {
    const then = 'Press the button.\nWait for the lamp.\n'.repeat(40)
    const end = endAt(part, then, [{ start: 740, end: 757 }])
    const pieces = [slicePieces(fresh(then).pieces, { start: 740, end: 757 })]
    const now = fresh(`First the pump.\n${then}`, r2)
    expect(isAstray(pieces, now)).toBe(true)
    expect(deriveEnd(end, pieces, now)).toMatchObject({ places: [null], loose: true })
    const known = deriveEnd(end, pieces, now, olderText(then))
    expect(known).toMatchObject({ places: [{ start: 756, end: 773 }], loose: false })
    expect(known.score).toBeGreaterThan(0.9)
    // A text in which the words do not stand where the link says is none that it can be about.
    expect(deriveEnd(end, pieces, now, olderText(`- ${then}`)).places).toEqual([null])
  })

  it('is told by the characters that are left, whatever the text of then', () => {
    const now = edit(fresh(text), [[0, 0, '# ']])
    const pieces = [slicePieces(fresh(text).pieces, range)]
    expect(isAstray(pieces, now)).toBe(false)
    expect(isAstray(pieces, null)).toBe(false)
    const end = endAt(part, text, [range])
    expect(deriveEnd(end, pieces, now, olderText(text))).toEqual(deriveEnd(end, pieces, now))
  })

  it('equals the hull of the surviving characters for any edits, unless the exact words stand across it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(29), fc.nat(29), fc.constantFrom('', 'x', ' stop')), { maxLength: 2 }),
        (raw) => {
          const edits = raw.map(([a, b, insert]): [number, number, string] => [
            Math.min(a, b),
            Math.max(a, b),
            insert,
          ])
          const now = edit(fresh(text), edits)
          const ids = now.pieces.flatMap((p) =>
            Array.from({ length: p.end - p.start }, (_, i) => `${p.revision} ${p.start + i}`),
          )
          const left = ids.flatMap((id, i) =>
            id.startsWith('r1 ') && +id.slice(3) >= 9 && +id.slice(3) < 24 ? [i] : [],
          )
          const place = placeIn(now)
          const hull = left.length > 0 ? { start: left[0]!, end: left.at(-1)! + 1 } : null
          const words = place && now.text.slice(place.start, place.end)
          expect(words === 'stop the logger' || JSON.stringify(place) === JSON.stringify(hull)).toBe(true)
        },
      ),
      { numRuns: 300 },
    )
  })
})

describe('the type of a link', () => {
  const carried = 'stop the logger'
  const whole = { start: 0, end: carried.length }
  it('is quotes while the words stand, also where only their spacing changed', () => {
    expect(stateWhen(carried, carried, [whole], fresh(carried))).toMatchObject({ type: 'quotes', kept: 1 })
    for (const other of ['stop  the logger', 'stop the\nlogger', 'stop\tthe logger']) {
      const changeSet = changeBetween(carried, other)
      const pieces = advancePieces(fresh(carried).pieces, changeSet, r2, null)
      const state = stateWhen(carried, carried, [whole], { text: other, pieces })
      expect(state).toMatchObject({ type: 'quotes', kept: 1, loose: false })
    }
  })

  it('is derives once a word differs, with the share of words that stand', () => {
    const state = stateWhen(carried, carried, [whole], edit(fresh(carried), [[5, 8, 'this']]))
    expect(state).toMatchObject({ type: 'derives', kept: 2 / 3, loose: false })
  })

  it('is derives and loose once no word can be found', () => {
    const state = stateWhen(carried, carried, [whole], edit(fresh(carried), [[0, 15, 'halt']]))
    expect(state).toMatchObject({
      type: 'derives',
      kept: 0,
      loose: true,
      newer: { loose: true },
      older: { loose: false },
    })
  })

  it('is quotes for words set line by line as a quotation, with the marks between them left out', () => {
    const lines = 'stop the\n\nlogger'
    const text = '> stop the\n> \n> logger'
    const state = stateWhen(
      lines,
      text,
      [
        { start: 2, end: 10 },
        { start: 16, end: 22 },
      ],
      fresh(text),
    )
    expect(state).toMatchObject({ type: 'quotes', kept: 1 })
    const one = edit(fresh(text), [[16, 22, 'clock']])
    const reworded = stateWhen(
      lines,
      text,
      [
        { start: 2, end: 10 },
        { start: 16, end: 22 },
      ],
      one,
    )
    expect(reworded).toMatchObject({ type: 'derives', kept: 2 / 3, loose: false })
  })

  it('is told by what they join where no words were carried', () => {
    const type = (newer: LinkNode, older: LinkNode) => {
      const bare = (node: LinkNode): LinkEnd => ({ node, revision: null, ranges: [] })
      const link: Link = {
        id: 'l' as LinkId,
        made: '' as never,
        way: 'drag',
        newer: bare(newer),
        older: bare(older),
      }
      const end = (linkEnd: LinkEnd) => deriveEnd(linkEnd, [], null)
      return deriveLinkState(link, end(link.newer), end(link.older), null)
    }
    const source = { kind: 'source', id: 's' as never } as const
    expect(type(entry, source)).toMatchObject({ type: 'cites', kept: 1, loose: false })
    expect(type(part, source)).toMatchObject({ type: 'cites', kept: 1, loose: false })
    expect(type(entry, entry)).toMatchObject({ type: 'answers', kept: 1, loose: false })
  })
})
