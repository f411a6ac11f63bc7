import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { violationsOf } from '../support/prov/check.ts'
import { toLine, type ProvDocument } from '../support/prov/document.ts'
import { readProvJson } from '../support/prov/read-json.ts'
import { readProvN } from '../support/prov/read-n.ts'
import { readProvXml } from '../support/prov/read-xml.ts'

/**
 * The checker that holds our exports to PROV-CONSTRAINTS (W3C Recommendation, 30 April 2013) gives the verdicts of others:
 * the validation cases of ProvToolbox, the cases and the lists of verdicts of the W3C's Provenance Working Group. What it
 * reads is held against the Southampton cases, each of which says one document in two forms.
 */
const folder = join(process.env.STANDARDS_DIR ?? join(process.cwd(), '../shared/standards'), 'prov')
const isThere = existsSync(folder)
const read = (path: string): string => readFileSync(join(folder, path), 'utf8')
const list = (path: string, ending: string): string[] =>
  isThere ? readdirSync(join(folder, path)).filter((name) => name.endsWith(ending)) : []
const isValid = (document: ProvDocument): boolean => violationsOf(document).length === 0

/** Cases whose file name says another verdict than the Recommendation, with the reason. */
const misnamed: Readonly<Record<string, string>> = {
  'usage-fail1': 'no constraint makes usages unique, and ProvToolbox’s own tests take it for valid',
  'usage-fail5': 'no constraint makes usages unique, and the W3C’s list has unification-usage-f5-PASS-c23',
  'usage-fail6': 'no constraint makes usages unique, and the W3C’s list has unification-usage-f6-PASS-c23',
  'usage-fail7': 'no constraint makes usages unique, and the W3C’s list has unification-usage-f7-PASS-c23',
  'delegation-fail4':
    'an activity that a delegation leaves out may be any (Table 3), and ProvToolbox’s own tests take it for valid',
  'delegation-fail5':
    'what a delegation leaves out is merged with what the other of that name says; the test of it is disabled in ProvToolbox (UnificationTest), with the values of a valid document noted beside it, so it is no verdict',
  'bundle-fail1':
    'the bundles that its name speaks of became texts of attributes when it was made PROV-N; ProvToolbox’s own tests report nothing of what is left',
}

describe('the checker of PROV-CONSTRAINTS', () => {
  it.skipIf(!isThere)(
    'gives the verdict that each of ProvToolbox’s unification and type cases is named for',
    () => {
      const names = [
        ...list('provtoolbox-validate/unification', '.provn').map((name) => `unification/${name}`),
        ...list('provtoolbox-validate/type', '.provn').map((name) => `type/${name}`),
      ]
      expect(names).toHaveLength(162)
      const other = names.filter((name) => {
        const isMeantValid = name.includes('-success')
        return isValid(readProvN(read(`provtoolbox-validate/${name}`))) !== isMeantValid
      })
      expect(other.map((name) => basename(name, '.provn')).sort()).toEqual(Object.keys(misnamed).sort())
    },
  )

  it.skipIf(!isThere)('finds a circle in two of ProvToolbox’s ordering cases and none in the others', () => {
    const names = list('provtoolbox-validate/ordering', '.provn')
    expect(names).toHaveLength(24)
    const invalid = names.filter((name) => !isValid(readProvN(read(`provtoolbox-validate/ordering/${name}`))))
    expect(invalid).toEqual(['derivation2.provn', 'specialization4.provn'])
  })

  it.skipIf(!isThere)('finds nothing in ProvToolbox’s larger documents', () => {
    const names = ['', 'issue/'].flatMap((under) =>
      list(`provtoolbox-validate/${under}`, '.provn').map((name) => under + name),
    )
    expect(names).toHaveLength(10)
    for (const name of names)
      expect([name, violationsOf(readProvN(read(`provtoolbox-validate/${name}`)))]).toEqual([name, []])
  })

  it.skipIf(!isThere)(
    'gives the verdict of the W3C’s own cases, by the constraint that each is named for',
    () => {
      const cases = [
        ...list('w3c-unification', '.json').map(
          (name) => [name, readProvJson(read(`w3c-unification/${name}`))] as const,
        ),
        ...list('w3c-unification/constraints', '.provx').map(
          (name) => [name, readProvXml(read(`w3c-unification/constraints/${name}`))] as const,
        ),
      ]
      expect(cases).toHaveLength(21)
      for (const [name, document] of cases)
        expect([name, verdictOf(document, name)]).toEqual([name, wantedOf(name)])
    },
  )

  it.skipIf(!isThere)(
    'gives the verdicts of the W3C’s lists, where ProvToolbox has the case as PROV-N',
    () => {
      const listed = ['positive', 'negative'].flatMap((name) =>
        read(`w3c-constraints-verdicts/${name}.txt`)
          .split('\n')
          .filter((line) => /^(unification|ordering|type)-/.test(line)),
      )
      const cases = listed.flatMap((name) => {
        const path = pathOf(name)
        return existsSync(join(folder, path)) ? [[name, readProvN(read(path))] as const] : []
      })
      expect(listed).toHaveLength(156)
      // ordering-communication has no file of its own.
      expect(cases).toHaveLength(155)
      for (const [name, document] of cases)
        expect([name, verdictOf(document, name)]).toEqual([name, wantedOf(name)])
    },
  )
})

/**
 * Circles that our own documents close by one constraint each. Ends and invalidations come behind everything, so no circle
 * with a strict step goes through 30, 32, 35, 36, 38, 40, 44, 46, 47 or 49.
 */
const circles: Readonly<Record<number, string>> = {
  31: `wasDerivedFrom(ex:e2, ex:e1) wasGeneratedBy(ex:e2, ex:b, -) wasGeneratedBy(ex:e1, ex:a, -)
       wasStartedBy(ex:a, ex:e2, ex:b, -) wasStartedBy(ex:a, ex:e3, ex:c, -)`,
  33: `wasDerivedFrom(ex:e2, ex:e1) wasGeneratedBy(ex:e2, ex:b, -) wasStartedBy(ex:a, ex:e2, ex:b, -)
       used(ex:u; ex:a, ex:e3, -) wasGeneratedBy(ex:g; ex:e1, ex:a, -) wasDerivedFrom(ex:e1, ex:e3, ex:a, ex:g, ex:u)`,
  34: `wasDerivedFrom(ex:e2, ex:e1) wasGeneratedBy(ex:e2, ex:b, -) wasGeneratedBy(ex:e1, ex:a, -)
       wasStartedBy(ex:a, ex:e2, ex:b, -)`,
  37: `wasDerivedFrom(ex:e2, ex:e1) entity(ex:e1) entity(ex:e2) used(ex:u; ex:a, ex:e2, -) wasGeneratedBy(ex:g; ex:e3, ex:a, -)
       wasDerivedFrom(ex:e3, ex:e2, ex:a, ex:g, ex:u) wasDerivedFrom(ex:e1, ex:e3)`,
  39: `wasDerivedFrom(ex:e2, ex:e1) wasDerivedFrom(ex:e1, ex:e2) entity(ex:e1)
       wasGeneratedBy(ex:e2, ex:a, -) wasGeneratedBy(ex:e2, ex:b, -)`,
  41: `wasDerivedFrom(ex:e2, ex:e1) used(ex:u; ex:a, ex:e3, -) wasGeneratedBy(ex:g; ex:e1, ex:a, -)
       wasGeneratedBy(ex:e2, ex:b, -) wasDerivedFrom(ex:e1, ex:e3, ex:a, ex:g, ex:u) wasStartedBy(ex:a, ex:e2, ex:b, -)`,
  42: 'entity(ex:e1) entity(ex:e2) wasDerivedFrom(ex:e2, ex:e1) wasDerivedFrom(ex:e1, ex:e2)',
  43: `wasDerivedFrom(ex:e2, ex:e1) wasGeneratedBy(ex:e2, ex:b, -) wasGeneratedBy(ex:e1, ex:a, -)
       wasStartedBy(ex:a, ex:e2, ex:b, -)`,
  45: 'entity(ex:e1) entity(ex:e2) specializationOf(ex:e2, ex:e1) wasDerivedFrom(ex:e1, ex:e2)',
  48: `entity(ex:e) entity(ex:ag) agent(ex:ag) wasAttributedTo(ex:e, ex:ag) wasDerivedFrom(ex:ag, ex:e)`,
}

describe('an ordering constraint', () => {
  it.each(Object.entries(circles))('%s closes a circle', (constraint, statements) => {
    const document = readProvN(`document prefix ex <http://example.org/> ${statements} endDocument`)
    expect(violationsOf(document).map((violation) => violation.constraint)).toContain(Number(constraint))
  })
})

/** What the name of a case of the W3C says: PASS, or FAIL with the constraints that are broken. */
function wantedOf(name: string): string {
  return name.includes('-PASS') ? 'valid' : 'breaks one of those'
}

function verdictOf(document: ProvDocument, name: string): string {
  const violations = violationsOf(document)
  if (violations.length === 0) return 'valid'
  const named = new Set([...name.matchAll(/-(?:c(\d+)|(DM))/g)].map(([, number, dm]) => dm ?? Number(number)))
  return violations.some(({ constraint }) => named.has(constraint)) ? 'breaks one of those' : 'breaks another'
}

/** `unification-usage-f5-PASS-c23.ttl` is `unification/usage-fail5.provn`. */
function pathOf(name: string): string {
  const [, group, rest] = /^(unification|ordering|type)-(.*?)-(?:PASS|FAIL)/.exec(name)!
  const own = rest!.replace(/(^|-)s(\d+)$/, '$1success$2').replace(/(^|-)f(\d+)$/, '$1fail$2')
  const file = group === 'type' ? `type-${own === 'collection' ? 'collection-fail1' : own}` : own
  return `provtoolbox-validate/${group}/${file}.provn`
}

/** Southampton cases whose two files differ: the PROV-JSON writes names with the backslashes that only PROV-N needs. */
const differing = ['test-entity100', 'test-entity101']

describe('the readers of PROV-JSON and PROV-N', () => {
  it.skipIf(!isThere)('read the same document from both files of a Southampton case', () => {
    const cases = list('southampton-testcases', '').filter((name) => name.startsWith('test-'))
    expect(cases).toHaveLength(478)
    const other = cases.filter((name) => {
      const [json, provn] = ['.json', '.provn'].map((ending) => {
        const file = list(`southampton-testcases/${name}`, ending)[0]!
        return read(`southampton-testcases/${name}/${file}`)
      }) as [string, string]
      return linesOf(readProvJson(json)) !== linesOf(readProvN(provn))
    })
    expect(other).toEqual(differing)
  })

  it.skipIf(!isThere)('refuse what is no PROV-JSON', () => {
    const names = list('prov-json-malformed', '.json')
    expect(names).toHaveLength(10)
    // An empty object is a document that says nothing.
    for (const name of names)
      if (read(`prov-json-malformed/${name}`).trim() !== '{}')
        expect(() => readProvJson(read(`prov-json-malformed/${name}`)), name).toThrow()
  })

  it('refuse a name whose prefix the file does not declare', () => {
    expect(() => readProvN('document entity(ex:e) endDocument')).toThrow(/prefix of ex:e/)
    expect(() => readProvJson('{"entity": {"ex:e": {}}}')).toThrow(/prefix of ex:e/)
  })
})

function linesOf({ statements, bundles }: ProvDocument): string {
  return JSON.stringify([
    statements.map(toLine).sort(),
    bundles.map(({ name, statements: own }) => [name, own.map(toLine).sort()]).sort(),
  ])
}
