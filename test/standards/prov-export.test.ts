import Ajv from 'ajv-draft-04'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { readMoment } from '../../shared/lab/moment.ts'
import { provForms } from '../../shared/provenance/prov/forms.ts'
import { provenanceOf } from '../../shared/provenance/prov/provenance.ts'
import { violationsOf } from '../support/prov/check.ts'
import { linesOf, recordsOfSample, recordsForProvenance, type RecordsOfLab } from '../support/prov/exports.ts'
import { nothingHappened, openGeneratedLab, pasts } from '../support/prov/generated.ts'
import { canonicalOfJsonLd, canonicalOfTurtle, quadsIn } from '../support/prov/rdf.ts'
import { readProvJson } from '../support/prov/read-json.ts'
import { readProvN } from '../support/prov/read-n.ts'

/** Our exports as others read them: the sample lab, and labs with a random past, in all four forms. */
const folder = join(process.env.STANDARDS_DIR ?? join(process.cwd(), '../shared/standards'), 'prov')
const isThere = existsSync(folder)
const read = (path: string): string => readFileSync(join(folder, path), 'utf8')

let sample: RecordsOfLab
let random: RecordsOfLab[]
beforeAll(async () => {
  sample = await recordsOfSample()
  random = await Promise.all(
    fc.sample(pasts, { numRuns: 8, seed: 20 }).map(async (past) => {
      const lab = await openGeneratedLab(past, nothingHappened())
      const records = await recordsForProvenance(lab)
      lab.close()
      return records
    }),
  )
}, 60_000)

/** Every document of some labs: of the lab, of each project, of each procedure. */
const documentsOf = (labs: readonly RecordsOfLab[]) =>
  labs.flatMap((lab) => lab.scopes.map((scope) => provenanceOf(lab, scope)))

describe('the provenance of the sample lab', () => {
  it('is valid by PROV-CONSTRAINTS, of the lab, of each project and of each procedure, and reads the same from PROV-JSON and PROV-N', () => {
    const documents = documentsOf([sample])
    expect(documents.length).toBeGreaterThanOrEqual(5)
    for (const document of documents) {
      const json = readProvJson(provForms['PROV-JSON'].write(document))
      const n = readProvN(provForms['PROV-N'].write(document))
      expect(json.statements.length).toBeGreaterThan(50)
      expect(violationsOf(json)).toEqual([])
      expect(violationsOf(n)).toEqual([])
      expect(linesOf(n)).toEqual(linesOf(json))
    }
  })
})

/** The schema of the submission (https://www.w3.org/submissions/prov-json/schema), which is one of JSON Schema draft 4. */
function schemaValidator() {
  const formats = {
    // RFC 3986 §4.3: an absolute address begins with its scheme.
    uri: (text: string) => /^[a-z][a-z\d+.-]*:\S*$/i.test(text),
    'date-time': (text: string) => readMoment(text) !== undefined,
  }
  return new Ajv({ formats, allErrors: true, strict: false }).compile(
    JSON.parse(read('schemas/prov-json.schema.json')) as object,
  )
}

type Json = Record<string, Record<string, unknown>>

/** What is done to a valid document to break it. */
const broken: Readonly<Record<string, (document: Json) => void>> = {
  'a relation that PROV-JSON does not have': (document) => (document['wasLeftOutOf'] = {}),
  'entities in a list': (document) => (document['entity'] = [] as unknown as Record<string, unknown>),
  'a generation of nothing': (document) =>
    (document['wasGeneratedBy'] = { '_:g': { 'prov:time': '2026-03-02T20:00:00Z' } }),
  // The schema gives an act's times outside its properties, where draft 4 takes no notice of them.
  'a generation at a time that is none': (document) => {
    const [generation] = Object.values(document['wasGeneratedBy']!)
    ;(generation as Record<string, unknown>)['prov:time'] = 'in the evening'
  },
  'a namespace that is no address': (document) => (document['prefix']!['uuid'] = 'here'),
}

describe('the PROV-JSON of our exports', () => {
  it.skipIf(!isThere)('validates with the schema of the W3C submission', () => {
    const validate = schemaValidator()
    for (const document of documentsOf([sample, ...random])) {
      const json = JSON.parse(provForms['PROV-JSON'].write(document)) as Json
      expect(validate(json), JSON.stringify(validate.errors)).toBe(true)
    }
  })

  it.skipIf(!isThere).each(Object.entries(broken))('does not validate with %s', (_, breakIt) => {
    const validate = schemaValidator()
    const json = JSON.parse(provForms['PROV-JSON'].write(provenanceOf(sample, { kind: 'lab' }))) as Json
    expect(validate(json)).toBe(true)
    breakIt(json)
    expect(validate(json)).toBe(false)
  })
})

describe('the JSON-LD and the Turtle of our exports', () => {
  it('are the same triples, as jsonld and n3 read them, without the network', async () => {
    const documents = documentsOf([sample, ...random])
    expect(documents.length).toBeGreaterThan(20)
    for (const document of documents) {
      const turtle = await canonicalOfTurtle(provForms.Turtle.write(document))
      expect(await canonicalOfJsonLd(provForms['JSON-LD'].write(document))).toBe(turtle)
      expect(turtle.split('\n').length).toBeGreaterThan(document.statements.length)
    }
  }, 60_000)

  it('are told apart where one word of one of them differs', async () => {
    const document = provenanceOf(sample, { kind: 'lab' })
    const text = provForms.Turtle.write(document)
    const other = text.replace(/rdfs:label "[^"]/, 'rdfs:label "#')
    expect(other).not.toBe(text)
    expect(await canonicalOfTurtle(other)).not.toBe(
      await canonicalOfJsonLd(provForms['JSON-LD'].write(document)),
    )
  })

  it.skipIf(!isThere)(
    'use no class and no property of PROV that PROV-O does not define',
    async () => {
      const defined = new Set(quadsIn(read('prov-o/prov.nq')).map(({ subject }) => subject.value))
      const used = new Set<string>()
      for (const document of documentsOf([sample, ...random]))
        for (const { predicate, object } of quadsIn(
          await canonicalOfTurtle(provForms.Turtle.write(document)),
        ))
          for (const { value } of [predicate, object])
            if (value.startsWith('http://www.w3.org/ns/prov#')) used.add(value)
      expect(used.size).toBeGreaterThan(20)
      expect([...used].filter((term) => !defined.has(term))).toEqual([])
    },
    60_000,
  )
})
