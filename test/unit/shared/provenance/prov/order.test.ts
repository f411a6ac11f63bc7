import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { linkWords } from '../../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../../shared/distil/fragment.ts'
import * as acts from '../../../../../shared/lab/acts.ts'
import type { Change, StoredChange } from '../../../../../shared/lab/change.ts'
import type { EntryId, LabId, RevisionId } from '../../../../../shared/lab/ids.ts'
import { changeBetween } from '../../../../../shared/lab/text.ts'
import { provForms } from '../../../../../shared/provenance/prov/forms.ts'
import type { ProvDocument, Statement } from '../../../../../shared/provenance/prov/model.ts'
import { provenanceOf } from '../../../../../shared/provenance/prov/provenance.ts'
import { violationsOf } from '../../../../support/prov/check.ts'
import { readProvN } from '../../../../support/prov/read-n.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

/** One state of an entry's text. */
interface State {
  readonly entry: EntryId
  readonly revision: RevisionId
  readonly text: string
}

/** A lab's past: entries, further revisions of them, and links between any two states that there are by then. */
type Move =
  | { readonly kind: 'entry' }
  | { readonly kind: 'revision'; readonly of: number }
  | { readonly kind: 'link'; readonly newer: number; readonly older: number }

const WORDS = 'The dump lies on the card.'

function play(moves: readonly Move[]): ProvDocument {
  const around = repeatableSurroundings()
  const lab = around.ids.make<LabId>()
  const { project, change } = acts.addProject(around, { title: 'Logger', aim: '', status: 'planned' })
  const changes: Change[] = [change]
  const states: State[] = []
  for (const move of moves) {
    if (move.kind === 'entry') {
      const {
        entry,
        revision,
        change: added,
      } = acts.addEntry(around, {
        ...{ project: project.id, kind: 'action' as const },
        text: WORDS,
      })
      changes.push(added)
      states.push({ entry: entry.id, revision, text: WORDS })
    } else if (states.length > 0 && move.kind === 'revision') {
      const { entry } = states[move.of % states.length]!
      const last = states.findLast((state) => state.entry === entry)!
      const text = `${last.text} Again.`
      const node = { kind: 'entry', id: entry } as const
      const written = acts.writeText(around, node, last.revision, changeBetween(last.text, text))
      changes.push(written.change)
      states.push({ entry, revision: written.revision, text })
    } else if (states.length > 0 && move.kind === 'link') {
      const [newer, older] = [states[move.newer % states.length]!, states[move.older % states.length]!]
      if (newer !== older) changes.push(linkOf(around, lab, newer, older))
    }
  }
  const stored = changes.map((one, i): StoredChange => ({ ...one, sequence: i + 1 }))
  return provenanceOf({ lab, changes: stored, linkStates: [], captures: new Map() }, { kind: 'lab' })
}

function linkOf(around: acts.Surroundings, lab: LabId, newer: State, older: State): Change {
  const range = { start: 0, end: WORDS.length }
  const from = {
    ...{ lab, node: { kind: 'entry', id: older.entry } as const, revision: older.revision },
    ...{ text: older.text, title: '', address: null },
    origin: { kind: 'entry', entryKind: 'action' } as const,
  }
  const to = { node: { kind: 'entry', id: newer.entry } as const, revision: newer.revision }
  const landed = { ...to, text: newer.text, ranges: [range] }
  const link = linkWords(around, pickFragment(from, [range])!, landed, 'button')
  return acts.makeChange(around, 'carry', [acts.put('links', link)])
}

/** The document with a derivation in the place of every influence: as it would be written if order were no matter. */
function withoutOrder(document: ProvDocument): ProvDocument {
  const statements = document.statements.map((statement): Statement => {
    if (statement.relation !== 'wasInfluencedBy') return statement
    return { ...statement, relation: 'wasDerivedFrom', args: [...statement.args, null, null, null] }
  })
  return { ...document, statements }
}

const constraintsBroken = (document: ProvDocument) =>
  violationsOf(readProvN(provForms['PROV-N'].write(document))).map(({ constraint }) => constraint)

const number = fc.nat({ max: 30 })
const moves = fc.array(
  fc.oneof(
    fc.constant<Move>({ kind: 'entry' }),
    fc.record({ kind: fc.constant('revision' as const), of: number }),
    fc.record({ kind: fc.constant('link' as const), newer: number, older: number }),
  ),
  { minLength: 4, maxLength: 16 },
)

describe('that a derivation is stated only where the older end was there first', () => {
  it('is needed: words linked both ways would come of each other', () => {
    const document = play([
      { kind: 'entry' },
      { kind: 'entry' },
      { kind: 'link', newer: 1, older: 0 },
      { kind: 'link', newer: 0, older: 1 },
    ])
    const relations = document.statements.filter(({ id, relation }) => id !== null && /^was/.test(relation))
    expect(relations.map(({ relation }) => relation)).toEqual(['wasDerivedFrom', 'wasInfluencedBy'])
    expect(constraintsBroken(document)).toEqual([])
    expect(constraintsBroken(withoutOrder(document))).toContain(42)
  })

  it('is needed: a first wording linked to what its own second wording is', () => {
    const document = play([
      { kind: 'entry' },
      { kind: 'revision', of: 0 },
      { kind: 'link', newer: 0, older: 1 },
    ])
    expect(constraintsBroken(document)).toEqual([])
    expect(constraintsBroken(withoutOrder(document))).toContain(42)
  })

  it('is enough: no links between any states of texts, made in any order, make the document invalid', () => {
    let wouldBeInvalid = 0
    fc.assert(
      fc.property(moves, (past) => {
        const document = play(past)
        expect(constraintsBroken(document)).toEqual([])
        if (constraintsBroken(withoutOrder(document)).length > 0) wouldBeInvalid++
      }),
      { numRuns: 300 },
    )
    expect(wouldBeInvalid).toBeGreaterThan(30)
  })
})
