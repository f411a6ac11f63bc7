/** Constraints 50 to 56 of PROV-CONSTRAINTS: types of things, and what cannot be. */
import { PROV, signatures, type Relation } from './document.ts'
import { groupBy, identified, things, typesOf, type Facts } from './facts.ts'
import type { Term } from './terms.ts'

/** Constraint 50 (typing): what stands at a place is of that type. Places that are not named type nothing. */
const typing: { readonly [R in Relation]?: Readonly<Record<string, readonly string[]>> } = {
  used: { activity: ['activity'], entity: ['entity'] },
  wasGeneratedBy: { entity: ['entity'], activity: ['activity'] },
  wasInformedBy: { informed: ['activity'], informant: ['activity'] },
  wasStartedBy: { activity: ['activity'], trigger: ['entity'], starter: ['activity'] },
  wasEndedBy: { activity: ['activity'], trigger: ['entity'], ender: ['activity'] },
  wasInvalidatedBy: { entity: ['entity'], activity: ['activity'] },
  wasDerivedFrom: { generatedEntity: ['entity'], usedEntity: ['entity'], activity: ['activity'] },
  wasAttributedTo: { entity: ['entity'], agent: ['agent'] },
  wasAssociatedWith: { activity: ['activity'], agent: ['agent'], plan: ['entity'] },
  actedOnBehalfOf: { delegate: ['agent'], responsible: ['agent'], activity: ['activity'] },
  alternateOf: { alternate1: ['entity'], alternate2: ['entity'] },
  specializationOf: { specificEntity: ['entity'], generalEntity: ['entity'] },
  mentionOf: { specificEntity: ['entity'], generalEntity: ['entity'] },
  hadMember: { collection: ['entity', `${PROV}Collection`], entity: ['entity'] },
}

/** Constraint 53 leaves out wasDerivedFrom and wasInfluencedBy. */
const disjoint = identified.filter(
  (relation) => relation !== 'wasDerivedFrom' && relation !== 'wasInfluencedBy',
)

export function checkImpossible(facts: Facts): void {
  const types = typesOfThings(facts)
  checkTypes(facts, types)
  checkIdentifiers(facts)
  const { terms } = facts
  for (const fact of facts.of('wasDerivedFrom')) {
    const [, , activity, generation, usage] = fact.args as [Term, Term, Term, Term, Term]
    // 51 impossible-unspecified-derivation-generation-use
    const isHalf = !terms.isPlaceholder(generation) || !terms.isPlaceholder(usage)
    if (terms.isPlaceholder(activity) && isHalf)
      facts.violate(51, `${facts.say(fact)} says events of no activity`)
  }
  // 52 impossible-specialization-reflexive
  for (const fact of facts.of('specializationOf'))
    if (terms.isSame(fact.args[0]!, fact.args[1]!)) facts.violate(52, `${facts.say(fact)} specializes itself`)
}

function typesOfThings(facts: Facts): Map<Term, Set<string>> {
  const types = new Map<Term, Set<string>>()
  const note = (term: Term, ...own: readonly string[]): void => {
    if (facts.terms.isPlaceholder(term)) return
    const key = facts.terms.find(term)
    types.set(key, new Set([...(types.get(key) ?? []), ...own]))
  }
  for (const fact of facts.all) {
    if (things.includes(fact.relation)) note(fact.id, fact.relation, ...typesOf(fact))
    signatures[fact.relation].forEach((name, i) => {
      const own = typing[fact.relation]?.[name]
      if (own) note(fact.args[i]!, ...own)
    })
  }
  // 21 specialization-attributes-inference, for the attribute that the constraints read: types.
  for (const { args } of facts.of('specializationOf'))
    note(args[0]!, ...[...(types.get(facts.terms.find(args[1]!)) ?? [])].filter((type) => type.includes(':')))
  return types
}

/** 55 entity-activity-disjoint, 56 membership-empty-collection */
function checkTypes(facts: Facts, types: ReadonlyMap<Term, ReadonlySet<string>>): void {
  for (const [term, own] of types)
    if (own.has('entity') && own.has('activity'))
      facts.violate(55, `${facts.terms.say(term)} is both an entity and an activity`)
  for (const fact of facts.of('hadMember'))
    if (types.get(facts.terms.find(fact.args[0]!))?.has(`${PROV}EmptyCollection`))
      facts.violate(56, `${facts.say(fact)} is in an empty collection`)
}

/** 53 impossible-property-overlap, 54 impossible-object-property-overlap */
export function checkIdentifiers(facts: Facts): void {
  const named = facts.all.filter(({ relation }) => [...things, ...identified].includes(relation))
  for (const group of groupBy(named, ({ id }) => facts.terms.find(id)).values()) {
    const kinds = new Set(group.map(({ relation }) => relation))
    const says = group.map((fact) => facts.say(fact)).join(', ')
    if (disjoint.filter((relation) => kinds.has(relation)).length > 1) facts.violate(53, says)
    if (things.some((thing) => kinds.has(thing)) && identified.some((relation) => kinds.has(relation)))
      facts.violate(54, says)
  }
}
