import { beforeAll, describe, expect, it } from 'vitest'
import { provForms } from '../../shared/provenance/prov/forms.ts'
import type { ProvDocument, Relation, Statement } from '../../shared/provenance/prov/model.ts'
import { provenanceOf } from '../../shared/provenance/prov/provenance.ts'
import { violationsOf, type Violation } from '../support/prov/check.ts'
import { recordsOfSample } from '../support/prov/exports.ts'
import { readProvN } from '../support/prov/read-n.ts'

/**
 * Faults planted in the export of the sample lab, each against another constraint of PROV-CONSTRAINTS (W3C Recommendation,
 * 30 April 2013). Without it the export is valid. No document can be invalid for something that happened after an
 * invalidation or an end: the Recommendation lets nothing strictly follow those.
 */
interface Ground {
  /** Two revisions of one text, the later derived from the earlier, with the acts that made them. */
  readonly early: string
  readonly late: string
  readonly earlyAct: string
  readonly lateAct: string
  readonly thing: string
  readonly link: string
  readonly gone: string
  readonly goneAct: string
  readonly collection: string
  readonly person: string
}

const faults: Readonly<
  Record<string, { readonly breaks: Violation['constraint']; readonly says: (on: Ground) => string }>
> = {
  'an act that began twice': {
    breaks: 22,
    says: ({ lateAct }) => `activity(${lateAct}, 2001-01-01T00:00:00Z, -)`,
  },
  'one name for two links': {
    breaks: 23,
    says: ({ link, thing, person }) => `entity(${person}) wasDerivedFrom(${link}; ${thing}, ${person})`,
  },
  'two generations of one revision by one act': {
    breaks: 24,
    says: ({ late, lateAct }) =>
      `wasGeneratedBy(lab:one; ${late}, ${lateAct}, -) wasGeneratedBy(lab:other; ${late}, ${lateAct}, -)`,
  },
  'two invalidations of one thing by one act': {
    breaks: 25,
    says: ({ gone, goneAct }) =>
      `wasInvalidatedBy(lab:one; ${gone}, ${goneAct}, -) wasInvalidatedBy(lab:other; ${gone}, ${goneAct}, -)`,
  },
  'a start at another time than the act’s': {
    breaks: 28,
    says: ({ lateAct, early, earlyAct }) =>
      `wasStartedBy(${lateAct}, ${early}, ${earlyAct}, 2001-01-01T00:00:00Z)`,
  },
  'an act that uses what came later for what it made': {
    breaks: 37,
    says: ({ early, earlyAct, late }) =>
      `used(lab:u; ${earlyAct}, ${late}, -) wasGeneratedBy(lab:g; ${early}, ${earlyAct}, -)
       wasDerivedFrom(${early}, ${late}, ${earlyAct}, lab:g, lab:u)`,
  },
  'a further generation, by an act that came of what followed': {
    breaks: 39,
    says: ({ early, late, person }) =>
      `activity(lab:again) wasGeneratedBy(${early}, lab:again, -) wasStartedBy(lab:again, ${late}, -, -)
       wasAssociatedWith(lab:again, ${person}, -)`,
  },
  'revisions derived from each other': {
    breaks: 42,
    says: ({ early, late }) => `wasDerivedFrom(${early}, ${late})`,
  },
  'an act begun by what came of it': {
    breaks: 43,
    says: ({ earlyAct, late }) => `wasStartedBy(${earlyAct}, ${late}, -, -)`,
  },
  'a revision that specializes the one after it': {
    breaks: 45,
    says: ({ early, late }) => `specializationOf(${early}, ${late})`,
  },
  'words ascribed to someone who came of them': {
    breaks: 48,
    says: ({ early, person }) =>
      `entity(${person}) wasDerivedFrom(${person}, ${early}) wasAttributedTo(${early}, ${person})`,
  },
  'a derivation by a generation of no act': {
    breaks: 51,
    says: ({ early, late }) => `wasDerivedFrom(${late}, ${early}, -, lab:g, -)`,
  },
  'a thing that specializes itself by way of its revision': {
    breaks: 52,
    says: ({ thing, early }) => `specializationOf(${thing}, ${early})`,
  },
  'one name for a usage and a generation': {
    breaks: 53,
    says: ({ early, late, lateAct }) =>
      `used(lab:event; ${lateAct}, ${early}, -) wasGeneratedBy(lab:event; ${late}, ${lateAct}, -)`,
  },
  'a usage with the name of an act': {
    breaks: 54,
    says: ({ early, earlyAct, lateAct }) => `used(${earlyAct}; ${lateAct}, ${early}, -)`,
  },
  'an entity that is an activity': { breaks: 55, says: ({ early }) => `activity(${early})` },
  'an empty collection that holds something': {
    breaks: 56,
    says: ({ collection }) => `entity(${collection}, [prov:type='prov:EmptyCollection'])`,
  },
}

let document: ProvDocument
let ground: Ground
beforeAll(async () => {
  document = provenanceOf(await recordsOfSample(), { kind: 'lab' })
  ground = groundOf(document)
}, 60_000)

describe('the checker finds in the export of the sample lab', () => {
  it.each(Object.entries(faults))('%s', (_, { breaks, says }) => {
    const text = provForms['PROV-N'].write(document)
    expect(violationsOf(readProvN(text))).toEqual([])
    const planted = text.replace(/endDocument\n$/, `${says(ground)}\nendDocument\n`)
    const found = violationsOf(readProvN(planted))
    expect(found.map(({ constraint }) => constraint)).toContain(breaks)
  })
})

/** Statements of the export that faults can be hung on. @throws TypeError where it has none of a kind */
function groundOf({ statements }: ProvDocument): Ground {
  const of = (relation: Relation): Statement[] => statements.filter((one) => one.relation === relation)
  const argsOf = (relation: Relation, is: (args: Statement['args']) => boolean): readonly string[] =>
    of(relation).find(({ args }) => is(args))!.args as readonly string[]
  const actOf = (entity: string): string => argsOf('wasGeneratedBy', ([made]) => made === entity)[1]!
  const [late, early] = of('wasDerivedFrom').find(({ id, args }) => id === null && args[2] !== null)!
    .args as unknown as readonly [string, string]
  const gone = of('wasInvalidatedBy')[0]!.args
  return {
    ...{ early, late, earlyAct: actOf(early), lateAct: actOf(late) },
    thing: argsOf('specializationOf', ([specific]) => specific === early)[1]!,
    link: of('wasDerivedFrom').find(({ id }) => id !== null)!.id!,
    ...{ gone: gone[0]!, goneAct: gone[1]! },
    collection: of('hadMember')[0]!.args[0]!,
    person: of('wasAssociatedWith')[0]!.args[1]!,
  }
}
