import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Change, StoredChange } from '../../../../../shared/lab/change.ts'
import type { EntryId, LinkId } from '../../../../../shared/lab/ids.ts'
import { makeChange, put } from '../../../../../shared/lab/making.ts'
import type { Link } from '../../../../../shared/lab/model.ts'
import { provForms } from '../../../../../shared/provenance/prov/forms.ts'
import type { ProvDocument, Statement } from '../../../../../shared/provenance/prov/model.ts'
import { nameOfId, nameOfRecord } from '../../../../../shared/provenance/prov/names.ts'
import { provenanceOf } from '../../../../../shared/provenance/prov/provenance.ts'
import { violationsOf } from '../../../../support/prov/check.ts'
import { recordsForProvenance, unstatedNames } from '../../../../support/prov/exports.ts'
import { canonicalOfJsonLd, canonicalOfTurtle } from '../../../../support/prov/rdf.ts'
import { readProvN } from '../../../../support/prov/read-n.ts'
import { labWithRevisedLink } from '../../../support/revisedLink.ts'

/** PROV-CONSTRAINTS as checked by test/support/prov, which gives the W3C's verdicts on the W3C's own cases. */
const violations = (document: ProvDocument) => violationsOf(readProvN(provForms['PROV-N'].write(document)))

const relating = (document: ProvDocument, relation: Statement['relation'], subject: string) =>
  document.statements.filter((one) => one.relation === relation && one.args[0] === subject)

const isRevision = ({ attributes }: Statement): boolean =>
  attributes.some(
    ({ name, value }) => name === 'prov:type' && 'name' in value && value.name === 'prov:Revision',
  )

describe('a link that revises another, in PROV', () => {
  it('is a revision of the earlier record, by the act that made it, and the earlier one ended with that act', async () => {
    const { lab, procedure, first, second, setAgain } = await labWithRevisedLink()
    const third = await setAgain(second, 'readings')
    const records = await recordsForProvenance(lab)
    const madeBy = (link: Link) =>
      records.changes.find(({ operations }) =>
        operations.some((one) => one.op === 'put' && one.table === 'links' && one.record.id === link.id),
      )!
    for (const scope of [{ kind: 'lab' }, { kind: 'procedure', id: procedure }] as const) {
      const document = provenanceOf(records, scope)
      expect(violations(document)).toEqual([])
      expect(unstatedNames(document)).toEqual([])
      for (const [link, earlier] of [
        [second, first],
        [third, second],
      ] as const) {
        const act = nameOfId(madeBy(link).id)
        const [derived, ...more] = relating(document, 'wasDerivedFrom', nameOfRecord(link.id))
        expect(more).toEqual([])
        expect(derived!.args.slice(0, 3)).toEqual([nameOfRecord(link.id), nameOfRecord(earlier.id), act])
        expect(isRevision(derived!)).toBe(true)
        expect(relating(document, 'wasInvalidatedBy', nameOfRecord(earlier.id))[0]!.args[1]).toBe(act)
        expect(relating(document, 'wasGeneratedBy', nameOfRecord(link.id))[0]!.args[1]).toBe(act)
      }
      expect(relating(document, 'wasInvalidatedBy', nameOfRecord(third.id))).toEqual([])
      const [turtle, jsonLd] = [provForms.Turtle.write(document), provForms['JSON-LD'].write(document)]
      expect(await canonicalOfJsonLd(jsonLd)).toBe(await canonicalOfTurtle(turtle))
      expect(turtle).toContain(`prov:wasRevisionOf ${nameOfRecord(first.id)}`)
    }
    lab.close()
  })

  it('stands no more once it was taken back, and the earlier one stands again', async () => {
    const { lab, first, second } = await labWithRevisedLink()
    await lab.committer.undo()
    const records = await recordsForProvenance(lab)
    const document = provenanceOf(records, { kind: 'lab' })
    expect(violations(document)).toEqual([])
    expect(relating(document, 'wasInvalidatedBy', nameOfRecord(first.id))).toEqual([])
    const [ended] = relating(document, 'wasInvalidatedBy', nameOfRecord(second.id))
    expect(ended!.args[1]).toBe(nameOfId(records.changes.at(-1)!.id))
    lab.close()
  })

  it('keeps no struck-out word, neither with the link that stands nor with the one that it revises', async () => {
    const { lab, procedure, first } = await labWithRevisedLink()
    const entry = { kind: 'entry', id: first.older.node.id as EntryId } as const
    const written = async () => {
      const records = await recordsForProvenance(lab)
      const scopes = [{ kind: 'lab' }, { kind: 'procedure', id: procedure }] as const
      return scopes.flatMap((scope) => {
        const document = provenanceOf(records, scope)
        expect(violations(document)).toEqual([])
        return Object.values(provForms).map(({ write }) => write(document))
      })
    }
    for (const out of await written()) expect(out).toContain('minute')
    const struck = await lab.committer.strikeOut(entry, 'minute', 'a word')
    expect(struck.ok).toBe(true)
    for (const out of await written()) expect(out).not.toContain('minute')
    expect(JSON.stringify(await lab.dump())).not.toContain('minute')
    lab.close()
  })

  it('could not be the relation itself: that would be an entity too (constraint 54)', async () => {
    const { lab, first, second } = await labWithRevisedLink()
    const document = provenanceOf(await recordsForProvenance(lab), { kind: 'lab' })
    const names = new Map([first, second].map(({ id }) => [nameOfRecord(id), nameOfId(id)]))
    const statements = document.statements.map((one): Statement => ({
      ...one,
      id: (one.id && names.get(one.id)) ?? one.id,
      args: one.args.map((arg) => (arg && names.get(arg as never)) ?? arg),
    }))
    expect(violations({ ...document, statements }).map(({ constraint }) => constraint)).toContain(54)
    lab.close()
  })

  it('is valid whatever records of a foreign file say of what they revise', async () => {
    const { lab, first, second } = await labWithRevisedLink()
    const records = await recordsForProvenance(lab)
    const { surroundings } = lab
    let [circles, revisions] = [0, 0]
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 7 }), { minLength: 2, maxLength: 8 }), (revised) => {
        const ids = revised.map(() => surroundings.ids.make<LinkId>())
        const added = ids.map((id, i): Change =>
          makeChange(surroundings, 'carry', [
            put('links', { ...second, id, revises: ids[revised[i]!] ?? first.id }),
          ]),
        )
        const changes: StoredChange[] = [
          ...records.changes,
          ...added.map((one, i) => ({ ...one, sequence: records.changes.length + i + 1 })),
        ]
        const document = provenanceOf({ ...records, changes }, { kind: 'lab' })
        expect(violations(document)).toEqual([])
        expect(unstatedNames(document)).toEqual([])
        circles += revised.filter((of, i) => of >= i && of < ids.length).length
        revisions += ids.filter(
          (id) => relating(document, 'wasDerivedFrom', nameOfRecord(id)).length > 0,
        ).length
      }),
      { numRuns: 60 },
    )
    expect(Math.min(circles, revisions)).toBeGreaterThan(20)
    lab.close()
  })
})
