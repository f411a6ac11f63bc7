import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { provForms } from '../../../../../shared/provenance/prov/forms.ts'
import { provenanceOf } from '../../../../../shared/provenance/prov/provenance.ts'
import { violationsOf } from '../../../../support/prov/check.ts'
import { linesOf, recordsForProvenance, unstatedNames } from '../../../../support/prov/exports.ts'
import { nothingHappened, openGeneratedLab, pasts, STRUCK } from '../../../../support/prov/generated.ts'
import { readProvJson } from '../../../../support/prov/read-json.ts'
import { readProvN } from '../../../../support/prov/read-n.ts'

describe('the provenance of labs with a random past', () => {
  it('is valid by PROV-CONSTRAINTS, says the same in every form, names nothing unstated and lets no struck-out text out', async () => {
    const happened = nothingHappened()
    const seen = { labs: 0, statements: 0, influences: 0, invalidations: 0 }
    await fc.assert(
      fc.asyncProperty(pasts, async (past) => {
        const lab = await openGeneratedLab(past, happened)
        const records = await recordsForProvenance(lab)
        lab.close()
        for (const scope of records.scopes) {
          const document = provenanceOf(records, scope)
          const json = provForms['PROV-JSON'].write(document)
          const n = provForms['PROV-N'].write(document)
          const read = readProvJson(json)
          expect(violationsOf(read)).toEqual([])
          expect(linesOf(readProvN(n))).toEqual(linesOf(read))
          expect(read.statements).toHaveLength(document.statements.length)
          expect(unstatedNames(document)).toEqual([])
          const [turtle, jsonLd] = [provForms.Turtle.write(document), provForms['JSON-LD'].write(document)]
          // A tail of the word would betray it too.
          for (const out of [json, n, turtle, jsonLd]) expect(out.includes(STRUCK.slice(3))).toBe(false)
          if (scope.kind === 'lab') {
            seen.statements += document.statements.length
            seen.influences += document.statements.filter(
              ({ relation }) => relation === 'wasInfluencedBy',
            ).length
            seen.invalidations += document.statements.filter(
              ({ relation }) => relation === 'wasInvalidatedBy',
            ).length
          }
        }
        seen.labs++
      }),
      { numRuns: 200 },
    )
    expect(seen.labs).toBeGreaterThanOrEqual(200)
    expect(Math.min(...Object.values(happened), ...Object.values(seen))).toBeGreaterThan(0)
  }, 600_000)
})
