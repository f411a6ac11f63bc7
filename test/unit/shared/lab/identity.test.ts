import { ChangeSet } from '@codemirror/state'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { TextOperation } from '../../../../shared/lab/change.ts'
import type { PartId, RevisionId } from '../../../../shared/lab/ids.ts'
import type { Piece, Revision } from '../../../../shared/lab/model.ts'
import { changeText, toChangeSetJson, toLines } from '../../../../shared/lab/text.ts'
import { reverseText } from '../../../../shared/lab/undo.ts'
import {
  advancePieces,
  foldPieces,
  joinPieces,
  lengthOfPieces,
  locatePieces,
  slicePieces,
} from '../../../../shared/provenance/pieces.ts'
import { Characters, type Character, type Deed, type Edit } from '../../support/characters.ts'
import { repeatableSurroundings } from '../../support/lab.ts'

const node = { kind: 'part', id: 'the part' as PartId } as const
const natural = fc.nat({ max: 997 })
const insert = fc
  .array(fc.constantFrom('a', 'b', '\n', '🔭', ' '), { maxLength: 4 })
  .map((parts) => parts.join(''))
/** `back` takes an earlier operation back (an undo or a redo alike); otherwise up to three edits are made at once. */
const script = fc.array(
  fc.record({
    isBack: fc.constantFrom(false, false, true),
    which: natural,
    edits: fc.array(fc.record({ at: natural, deleted: fc.nat({ max: 4 }), insert }), {
      minLength: 1,
      maxLength: 3,
    }),
  }),
  { minLength: 1, maxLength: 25 },
)
type Turn = (typeof script extends fc.Arbitrary<infer T> ? T : never)[number]

/** Edits in text order that do not touch each other. */
function editsIn(length: number, turns: Turn['edits']): Edit[] {
  const edits = turns
    .map(({ at, deleted, insert: text }) => {
      const from = at % (length + 1)
      return { from, to: Math.min(length, from + deleted), insert: text }
    })
    .sort((a, b) => a.from - b.from)
  return edits.reduce<Edit[]>(
    (apart, edit) => (edit.from > (apart.at(-1)?.to ?? -1) ? [...apart, edit] : apart),
    [],
  )
}

/** The core beside the oracle, which is told nothing but the edits. */
class Both {
  readonly ids = repeatableSurroundings().ids
  readonly oracle = new Characters()
  readonly operations: { operation: TextOperation; deed: Deed }[] = []
  readonly revisions: Revision[] = []
  text = ''
  pieces: Piece[] = []
  /** The oracle's number of each identity. */
  readonly numbers = new Map<string, number>()

  edit(turns: Turn['edits']): void {
    const edits = editsIn(this.text.length, turns)
    const changes = ChangeSet.of(
      edits.map((edit) => ({ ...edit, insert: toLines(edit.insert) })),
      this.text.length,
    )
    const toRevision: RevisionId = this.ids.make()
    const deed = this.oracle.apply(edits)
    deed.typed.forEach(({ id }, i) => this.numbers.set(`${toRevision} ${i}`, id))
    this.land(
      { ...this.head(), changeSet: toChangeSetJson(changes), toRevision, restores: null, ends: false },
      deed,
    )
  }

  /** Takes an operation back and gives the oracle what came of it, once it has agreed. */
  takeBack(which: number): 'ended' | 'nothing' | 'done' {
    const { operation, deed } = this.operations[which % this.operations.length]!
    const reversed = reverseText(operation, this.revisions, this.ids)
    const before = this.oracle.now
    if (!reversed) {
      expect(this.oracle.isTakenBack(deed, before, before)).toBe(true)
      return 'nothing'
    }
    const text = changeText(this.text, reversed.changeSet)
    const pieces = advancePieces(this.pieces, reversed.changeSet, reversed.toRevision, reversed.restores)
    const after = this.charactersOf(text, pieces)
    expect(this.oracle.isTakenBack(deed, before, after)).toBe(true)
    expect(new Set(after.map(({ id }) => id)).size).toBe(after.length)
    if (reversed.ends) return 'ended'
    const [was, is] = [new Set(before.map(({ id }) => id)), new Set(after.map(({ id }) => id))]
    this.oracle.now = after
    this.land(reversed, {
      typed: after.filter(({ id }) => !was.has(id)),
      deleted: before.filter(({ id }) => !is.has(id)),
      before,
    })
    return 'done'
  }

  charactersOf(text: string, pieces: readonly Piece[]): Character[] {
    const identities = pieces.flatMap(({ revision, start, end }) =>
      Array.from({ length: end - start }, (_, i) => this.numbers.get(`${revision} ${start + i}`)!),
    )
    expect(identities).toHaveLength(text.length)
    return identities.map((id, i) => ({ id, unit: text[i]! }))
  }

  private head() {
    return { op: 'text', node, fromRevision: this.revisions.at(-1)?.id ?? null } as const
  }

  private land(operation: TextOperation, deed: Deed): void {
    this.pieces = advancePieces(this.pieces, operation.changeSet, operation.toRevision, operation.restores)
    this.text = changeText(this.text, operation.changeSet)
    this.operations.push({ operation, deed })
    this.revisions.push({
      ...{ id: operation.toRevision, node: node.id, number: this.revisions.length + 1 },
      ...{ from: operation.fromRevision, changeSet: operation.changeSet, restores: operation.restores },
      ...{ ended: operation.ends, moment: '' as never, change: '' as never, blobs: [] },
    })
    expect(this.text).toBe(this.oracle.text)
    expect(this.charactersOf(this.text, this.pieces)).toEqual(this.oracle.now)
  }
}

describe('the identity of characters', () => {
  it('agrees with an oracle that numbers every character, over edits, undo and redo', () => {
    const counts = { done: 0, nothing: 0, ended: 0 }
    fc.assert(
      fc.property(script, (turns) => {
        const both = new Both()
        for (const turn of turns) {
          if (!turn.isBack || both.operations.length === 0) both.edit(turn.edits)
          else counts[both.takeBack(turn.which)]++
        }
        expect(foldPieces(both.revisions)).toEqual(both.pieces)
      }),
      { numRuns: 400 },
    )
    expect(Math.min(counts.done, counts.nothing)).toBeGreaterThan(50)
  })

  it('is found again by locatePieces for any range at every later revision', () => {
    fc.assert(
      fc.property(script, natural, natural, (turns, a, b) => {
        const both = new Both()
        const marked: { pieces: Piece[]; ids: Set<number> }[] = []
        for (const turn of turns) {
          if (!turn.isBack || both.operations.length === 0) both.edit(turn.edits)
          else both.takeBack(turn.which)
          const [x, y] = [a % (both.text.length + 1), b % (both.text.length + 1)]
          const range = { start: Math.min(x, y), end: Math.max(x, y) }
          const chosen = both.oracle.now.slice(range.start, range.end)
          marked.push({ pieces: slicePieces(both.pieces, range), ids: new Set(chosen.map(({ id }) => id)) })
          for (const { pieces, ids } of marked) {
            const places = locatePieces(both.pieces, pieces)
            const found = places.flatMap(({ start, end }) =>
              both.oracle.now.slice(start, end).map(({ id }) => id),
            )
            expect(found).toEqual(both.oracle.now.filter(({ id }) => ids.has(id)).map(({ id }) => id))
            // Touching ranges are joined, so that a place is told in one way only.
            places.forEach((place, i) => expect(i === 0 || places[i - 1]!.end < place.start).toBe(true))
          }
        }
      }),
      { numRuns: 150 },
    )
  })

  it('has one form: equal sequences give equal pieces, whatever they were joined from', () => {
    fc.assert(
      fc.property(
        fc.array(natural, { minLength: 1, maxLength: 6 }),
        fc.array(natural, { maxLength: 6 }),
        (runs, cuts) => {
          const pieces = joinPieces(
            runs.map((n) => ({ revision: `r${n % 2}` as RevisionId, start: n % 5, end: (n % 5) + (n % 4) })),
          )
          const length = lengthOfPieces(pieces)
          const at = [0, ...cuts.map((n) => n % (length + 1)).sort((x, y) => x - y), length]
          const cut = at.slice(1).flatMap((end, i) => slicePieces(pieces, { start: at[i]!, end }))
          expect(joinPieces(cut)).toEqual(pieces)
        },
      ),
    )
  })
})
