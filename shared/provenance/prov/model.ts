/**
 * A PROV document as a plain value, in the terms of PROV-DM (W3C Recommendation, 30 April 2013). The writers make PROV-JSON,
 * PROV-N and RDF of it, and add nothing.
 */
import type { Moment } from '../../lab/moment.ts'
import type { Name, Prefixes } from './names.ts'

/**
 * The relations with their arguments behind the identifier, named as PROV-JSON names them. Relations that are not written here
 * (starts, ends, attributions, mentions) are not needed: an act has no length.
 */
export const signatures = {
  agent: [],
  activity: ['startTime', 'endTime'],
  entity: [],
  wasGeneratedBy: ['entity', 'activity', 'time'],
  wasInvalidatedBy: ['entity', 'activity', 'time'],
  used: ['activity', 'entity', 'time'],
  wasInformedBy: ['informed', 'informant'],
  wasDerivedFrom: ['generatedEntity', 'usedEntity', 'activity', 'generation', 'usage'],
  wasInfluencedBy: ['influencee', 'influencer'],
  wasAssociatedWith: ['activity', 'agent', 'plan'],
  actedOnBehalfOf: ['delegate', 'responsible', 'activity'],
  specializationOf: ['specificEntity', 'generalEntity'],
  alternateOf: ['alternate1', 'alternate2'],
  hadMember: ['collection', 'entity'],
} as const
export type Relation = keyof typeof signatures
export const relations = Object.keys(signatures) as Relation[]

/** Arguments that are times and not names. */
export function isTime(argument: string): boolean {
  return argument === 'time' || argument === 'startTime' || argument === 'endTime'
}

export type Value =
  | { readonly kind: 'name'; readonly name: Name }
  | { readonly kind: 'text'; readonly text: string }
  /** Of `xsd:int` where it is not said otherwise. */
  | { readonly kind: 'number'; readonly number: number; readonly type?: 'nonNegativeInteger' }
  /** An address as the source gave it, which may be no IRI. */
  | { readonly kind: 'address'; readonly address: string }

export interface Attribute {
  readonly name: Name
  readonly value: Value
}

export interface Statement {
  readonly relation: Relation
  /** Of things always; of other relations where something has to be said of them. */
  readonly id: Name | null
  /** As many as the relation has; null for what is not said. */
  readonly args: readonly (Name | Moment | null)[]
  readonly attributes: readonly Attribute[]
}

export interface ProvDocument {
  readonly prefixes: Prefixes
  /** Agents, activities and entities stand before what relates them. */
  readonly statements: readonly Statement[]
}

export const named = (name: Name): Value => ({ kind: 'name', name })
export const text = (words: string): Value => ({ kind: 'text', text: words })
export const number = (count: number): Value => ({ kind: 'number', number: count })
