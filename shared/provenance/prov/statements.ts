/** Collects the statements of a document, each relation by a method of its own. */
import type { StoredChange } from '../../lab/change.ts'
import type { Moment } from '../../lab/moment.ts'
import { named, relations, type Attribute, type Relation, type Statement, type Value } from './model.ts'
import { nameOfId, term, type Name } from './names.ts'

/** Attributes by their names; undefined for what is not said. */
export type Facts = readonly (readonly [Name, Value] | undefined)[]

export const type = (name: Name): readonly [Name, Value] => [term('prov', 'type'), named(name)]

export class Statements {
  private readonly all = new Map<Relation, Statement[]>(relations.map((relation) => [relation, []]))
  private readonly stated = new Set<Name>()

  /** In the order of `relations`: things before what relates them. */
  inOrder(): Statement[] {
    return relations.flatMap((relation) => this.all.get(relation)!)
  }

  isStated(name: Name): boolean {
    return this.stated.has(name)
  }

  agent(name: Name, facts: Facts): void {
    this.thing('agent', name, [], facts)
  }

  activity(name: Name, at: Moment, facts: Facts): void {
    this.thing('activity', name, [at, at], facts)
  }

  entity(name: Name, facts: Facts): void {
    this.thing('entity', name, [], facts)
  }

  private thing(relation: Relation, name: Name, args: Statement['args'], facts: Facts): void {
    if (this.stated.has(name)) return
    this.stated.add(name)
    this.add(relation, args, facts, name)
  }

  generated(entity: Name, change: StoredChange): void {
    this.add('wasGeneratedBy', [entity, nameOfId(change.id), change.at])
  }

  invalidated(entity: Name, change: StoredChange): void {
    this.add('wasInvalidatedBy', [entity, nameOfId(change.id), change.at])
  }

  used(change: StoredChange, entity: Name): void {
    this.add('used', [nameOfId(change.id), entity, null])
  }

  informed(informed: StoredChange, informant: StoredChange): void {
    this.add('wasInformedBy', [nameOfId(informed.id), nameOfId(informant.id)])
  }

  /** @param change the act by which the newer came of the older; null where that was another one than brought it about */
  derived(newer: Name, older: Name, change: StoredChange | null, facts: Facts, id: Name | null = null): void {
    this.add('wasDerivedFrom', [newer, older, change && nameOfId(change.id), null, null], facts, id)
  }

  influenced(influencee: Name, influencer: Name, facts: Facts = [], id: Name | null = null): void {
    this.add('wasInfluencedBy', [influencee, influencer], facts, id)
  }

  associated(activity: Name, agent: Name, plan: Name | null = null): void {
    this.add('wasAssociatedWith', [activity, agent, plan])
  }

  delegated(delegate: Name, responsible: Name): void {
    this.add('actedOnBehalfOf', [delegate, responsible, null])
  }

  specialized(specific: Name, general: Name): void {
    this.add('specializationOf', [specific, general])
  }

  alternate(one: Name, other: Name): void {
    this.add('alternateOf', [one, other])
  }

  member(collection: Name, entity: Name): void {
    this.add('hadMember', [collection, entity])
  }

  private add(relation: Relation, args: Statement['args'], facts: Facts = [], id: Name | null = null): void {
    const attributes = facts.flatMap((fact): Attribute[] => (fact ? [{ name: fact[0], value: fact[1] }] : []))
    this.all.get(relation)!.push({ relation, id, args, attributes })
  }
}
