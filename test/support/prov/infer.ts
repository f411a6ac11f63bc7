/**
 * Inferences 5 to 15 and 19 of PROV-CONSTRAINTS. An inference that says that something exists adds it only where nothing
 * stated or inferred so far can be it; so they come to an end, and validity is the same (the result maps onto that of
 * adding always).
 *
 * Left out, because no constraint rests on what they add: 16 to 18 and 20 (alternates), and 15 for facts whose identifier is
 * unsaid. 21 is part of the typing (impossible.ts).
 */
import { PROV, type Relation } from './document.ts'
import { identified, typesOf, type Fact, type Facts } from './facts.ts'
import type { Term } from './terms.ts'

/** One round. @returns whether something was added */
export function applyInferences(facts: Facts): boolean {
  const before = facts.all.length
  const given = [...facts.all]
  const index = new Index(facts)
  for (const fact of given) inferFrom(fact, facts, index)
  closeSpecializations(facts, index)
  return facts.all.length > before
}

/** Which facts there are, by the places that the inferences look at. */
class Index {
  /** What stands in the free one of the first two places, by the relation and the other one. */
  private readonly known = new Map<string, Set<Term>>()
  private readonly byId = new Map<string, Fact>()

  constructor(private readonly facts: Facts) {
    for (const fact of facts.all) this.note(fact)
  }

  has(relation: Relation, first: Term, second: Term): boolean {
    return this.matching(relation, first, null).has(this.facts.terms.find(second))
  }

  /** The terms in the place that is null, of facts with the other one. */
  matching(relation: Relation, first: Term | null, second: Term | null): ReadonlySet<Term> {
    return this.known.get(this.key(relation, first, second)) ?? new Set()
  }

  /** Facts with one identifier are merged before inferences are made, so there is one at most. */
  maybeFact(relation: Relation, id: Term): Fact | undefined {
    return this.byId.get(this.key(relation, id, null))
  }

  add(relation: Relation, args: readonly Term[], id?: Term): void {
    this.facts.add(relation, args, id)
    this.note(this.facts.all.at(-1)!)
  }

  private note(fact: Fact): void {
    const [first, second] = fact.args
    this.byId.set(this.key(fact.relation, fact.id, null), fact)
    if (first === undefined || second === undefined) return
    this.put(this.key(fact.relation, first, null), second)
    this.put(this.key(fact.relation, null, second), first)
  }

  private put(key: string, term: Term): void {
    const set = this.known.get(key)
    if (set) set.add(this.facts.terms.find(term))
    else this.known.set(key, new Set([this.facts.terms.find(term)]))
  }

  private key(relation: Relation, ...places: readonly (Term | null)[]): string {
    return `${relation} ${places.map((term) => (term === null ? '*' : this.facts.terms.find(term))).join(' ')}`
  }
}

function inferFrom(fact: Fact, facts: Facts, index: Index): void {
  const { terms } = facts
  const some = (): Term => terms.variable()
  const [a, b, c, d, e] = fact.args as [Term, Term, Term, Term, Term]
  switch (fact.relation) {
    // 5 communication-generation-use-inference
    case 'wasInformedBy': {
      const used = index.matching('used', a, null)
      if ([...index.matching('wasGeneratedBy', null, b)].some((entity) => used.has(entity))) break
      const entity = some()
      index.add('wasGeneratedBy', [entity, b, some()])
      index.add('used', [a, entity, some()])
      break
    }
    // 6 generation-use-communication-inference
    case 'wasGeneratedBy':
      for (const user of index.matching('used', null, a))
        if (!index.has('wasInformedBy', user, b)) index.add('wasInformedBy', [user, b])
      break
    // 7 entity-generation-invalidation-inference
    case 'entity':
      for (const relation of ['wasGeneratedBy', 'wasInvalidatedBy'] as const)
        if (index.matching(relation, fact.id, null).size === 0) index.add(relation, [fact.id, some(), some()])
      break
    // 8 activity-start-end-inference
    case 'activity':
      if (index.matching('wasStartedBy', fact.id, null).size === 0)
        index.add('wasStartedBy', [fact.id, some(), some(), a])
      if (index.matching('wasEndedBy', fact.id, null).size === 0)
        index.add('wasEndedBy', [fact.id, some(), some(), b])
      break
    // 9 wasStartedBy-inference, 10 wasEndedBy-inference
    case 'wasStartedBy':
    case 'wasEndedBy':
      if (!index.has('wasGeneratedBy', b, c)) index.add('wasGeneratedBy', [b, c, some()])
      break
    case 'wasDerivedFrom':
      // 11 derivation-generation-use-inference
      if ([c, d, e].every((term) => !terms.isPlaceholder(term))) {
        stateEvent(facts, index, 'used', e, [c, b])
        stateEvent(facts, index, 'wasGeneratedBy', d, [a, c])
      }
      // 12 revision-is-alternate-inference
      if (typesOf(fact).includes(`${PROV}Revision`) && !index.has('alternateOf', a, b))
        index.add('alternateOf', [a, b])
      break
    // 13 attribution-inference
    case 'wasAttributedTo': {
      const makers = index.matching('wasGeneratedBy', a, null)
      if ([...index.matching('wasAssociatedWith', null, b)].some((activity) => makers.has(activity))) break
      const activity = some()
      index.add('wasGeneratedBy', [a, activity, some()])
      index.add('wasAssociatedWith', [activity, b, some()])
      break
    }
    // 14 delegation-inference
    case 'actedOnBehalfOf':
      for (const agent of [a, b])
        if (!index.has('wasAssociatedWith', c, agent)) index.add('wasAssociatedWith', [c, agent, some()])
      break
    default:
  }
  // 15 influence-inference: under the same identifier.
  const isNamed = identified.includes(fact.relation) && terms.valueOf(fact.id) !== null
  if (isNamed && fact.relation !== 'wasInfluencedBy')
    stateEvent(facts, index, 'wasInfluencedBy', fact.id, [a, b])
}

/** States a fact of that identifier once more where it is not stated with these arguments, so that the two are merged. */
function stateEvent(
  { terms }: Facts,
  index: Index,
  relation: 'used' | 'wasGeneratedBy' | 'wasInfluencedBy',
  id: Term,
  args: readonly [Term, Term],
): void {
  const known = index.maybeFact(relation, id)
  if (known && args.every((arg, i) => terms.isSame(arg, known.args[i]!))) return
  index.add(relation, relation === 'wasInfluencedBy' ? args : [...args, terms.variable()], id)
}

/** 19 specialization-transitive */
function closeSpecializations(facts: Facts, index: Index): void {
  for (const { args } of facts.of('specializationOf'))
    for (const general of index.matching('specializationOf', args[1]!, null))
      if (!index.has('specializationOf', args[0]!, general))
        index.add('specializationOf', [args[0]!, general])
}
