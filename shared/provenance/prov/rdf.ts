/**
 * A document in the terms of PROV-O (W3C Recommendation, 30 April 2013) and of the Web Annotation Vocabulary (W3C
 * Recommendation, 23 February 2017): nodes with properties, which Turtle and JSON-LD write in their own ways.
 */
import type { Moment } from '../../lab/moment.ts'
import {
  signatures,
  type Attribute,
  type ProvDocument,
  type Relation,
  type Statement,
  type Value,
} from './model.ts'
import { term, type Name, type Prefixes } from './names.ts'

export type RdfValue =
  Value | { readonly kind: 'time'; readonly time: Moment } | { readonly kind: 'node'; readonly node: RdfNode }

/** Something with properties. Without a name it is a blank node, and stands in one place only. */
export interface RdfNode {
  readonly name: Name | null
  readonly types: Name[]
  /** By predicate, in the order in which they were said. */
  readonly properties: Map<Name, RdfValue[]>
}

export interface RdfDocument {
  readonly prefixes: Prefixes
  /** All nodes with a name. */
  readonly nodes: readonly RdfNode[]
}

const prov = (word: string): Name => term('prov', word)
const RDFS_LABEL = 'rdfs:label' as Name

/** PROV-O Table 3: how a relation is said in more than two terms. */
const qualified: {
  readonly [R in Relation]?: readonly [property: string, type: string, influencer: string]
} = {
  wasGeneratedBy: ['qualifiedGeneration', 'Generation', 'activity'],
  wasInvalidatedBy: ['qualifiedInvalidation', 'Invalidation', 'activity'],
  used: ['qualifiedUsage', 'Usage', 'entity'],
  wasInformedBy: ['qualifiedCommunication', 'Communication', 'activity'],
  wasDerivedFrom: ['qualifiedDerivation', 'Derivation', 'entity'],
  wasInfluencedBy: ['qualifiedInfluence', 'Influence', 'influencer'],
  wasAssociatedWith: ['qualifiedAssociation', 'Association', 'agent'],
  actedOnBehalfOf: ['qualifiedDelegation', 'Delegation', 'agent'],
}

/** Derivations that have a property of their own, by their prov:type. */
const derivations: Readonly<Record<string, string>> = {
  'prov:Quotation': 'wasQuotedFrom',
  'prov:Revision': 'wasRevisionOf',
  'prov:PrimarySource': 'hadPrimarySource',
}

/** Arguments behind the first two, as properties of the node that qualifies. */
const furtherArguments: Readonly<Record<string, string>> = {
  time: 'atTime',
  activity: 'hadActivity',
  generation: 'hadGeneration',
  usage: 'hadUsage',
  plan: 'hadPlan',
}

/** Times that PROV-O says beside the relation, without a node that qualifies it. */
const times: { readonly [R in Relation]?: string } = {
  wasGeneratedBy: 'generatedAtTime',
  wasInvalidatedBy: 'invalidatedAtTime',
}

export function toRdf({ prefixes, statements }: ProvDocument): RdfDocument {
  const graph = new Graph()
  for (const statement of statements) graph.state(statement)
  return {
    prefixes: [...prefixes, ['rdfs', 'http://www.w3.org/2000/01/rdf-schema#']],
    nodes: graph.all(),
  }
}

class Graph {
  private readonly nodes = new Map<Name, RdfNode>()

  all(): RdfNode[] {
    return [...this.nodes.values()]
  }

  state(statement: Statement): void {
    switch (statement.relation) {
      case 'entity':
      case 'activity':
      case 'agent':
        return this.stateThing(statement)
      default:
        return this.stateRelation(statement)
    }
  }

  private stateThing({ relation, id, args, attributes }: Statement): void {
    const node = this.node(id!)
    node.types.push(prov(relation[0]!.toUpperCase() + relation.slice(1)))
    if (relation === 'activity')
      for (const [i, word] of ['startedAtTime', 'endedAtTime'].entries())
        if (args[i]) put(node, prov(word), { kind: 'time', time: args[i] as Moment })
    describe(node, attributes)
  }

  private stateRelation(statement: Statement): void {
    const { relation, args } = statement
    const [subject, object, ...rest] = args as readonly (Name | null)[]
    if (!subject || !object) return
    const node = this.node(subject)
    const [property, form] = formOf(statement)
    put(node, prov(property), { kind: 'name', name: object })
    const time = times[relation]
    if (time && rest[0]) put(node, prov(time), { kind: 'time', time: rest[0] as string as Moment })
    if (form && isMoreThanTwoTerms(statement, time !== undefined)) this.qualify(node, statement, form)
  }

  private qualify(subject: RdfNode, { relation, id, args, attributes }: Statement, form: Form): void {
    const [property, type, influencer] = form
    const node = id === null ? blank() : this.node(id)
    node.types.push(prov(type))
    put(node, prov(influencer), { kind: 'name', name: args[1] as Name })
    signatures[relation].forEach((argument, i) => {
      const said = args[i]
      if (i < 2 || !said) return
      const value: RdfValue =
        argument === 'time' ? { kind: 'time', time: said as Moment } : { kind: 'name', name: said as Name }
      put(node, prov(furtherArguments[argument]!), value)
    })
    describe(
      node,
      attributes.filter(({ name, value }) => name !== prov('type') || !isNamed(value, prov(type))),
    )
    put(
      subject,
      prov(property),
      node.name === null ? { kind: 'node', node } : { kind: 'name', name: node.name },
    )
  }

  private node(name: Name): RdfNode {
    const known = this.nodes.get(name)
    if (known) return known
    const node: RdfNode = { name, types: [], properties: new Map() }
    this.nodes.set(name, node)
    return node
  }
}

type Form = readonly [property: string, type: string, influencer: string]

/** The property of a relation, and how it is qualified. */
function formOf({ relation, attributes }: Statement): readonly [string, Form | undefined] {
  const form = qualified[relation]
  if (relation !== 'wasDerivedFrom' || !form) return [relation, form]
  for (const { name, value } of attributes) {
    if (name !== prov('type') || value.kind !== 'name') continue
    const own = derivations[value.name]
    const type = value.name.slice('prov:'.length)
    if (own) return [own, [`qualified${type}`, type, form[2]]]
  }
  return [relation, form]
}

function isMoreThanTwoTerms({ id, args, attributes, relation }: Statement, isTimeSaid: boolean): boolean {
  const isSaid = (value: Value): boolean => relation !== 'wasDerivedFrom' || !isDerivation(value)
  return (
    id !== null ||
    args.slice(2).some((arg) => arg !== null && !isTimeSaid) ||
    attributes.some(({ value }) => isSaid(value))
  )
}

const isDerivation = (value: Value): boolean => value.kind === 'name' && value.name in derivations
const isNamed = (value: Value, name: Name): boolean => value.kind === 'name' && value.name === name

function blank(): RdfNode {
  return { name: null, types: [], properties: new Map() }
}

function put(node: RdfNode, property: Name, value: RdfValue): void {
  const known = node.properties.get(property)
  if (known) known.push(value)
  else node.properties.set(property, [value])
}

/** Attributes as properties; those of a stretch of text as its two selectors (Web Annotation Data Model §4). */
function describe(node: RdfNode, attributes: readonly Attribute[]): void {
  const quote = blank()
  const position = blank()
  for (const { name, value } of attributes) {
    if (name === prov('type') && value.kind === 'name') node.types.push(value.name)
    else if (name === prov('label')) put(node, RDFS_LABEL, value)
    else if (quoteTerms.includes(name)) put(quote, name, value)
    else if (positionTerms.includes(name)) put(position, name, value)
    else put(node, name, value)
  }
  for (const [selector, type] of [
    [quote, 'TextQuoteSelector'],
    [position, 'TextPositionSelector'],
  ] as const)
    if (selector.properties.size > 0) {
      selector.types.push(term('oa', type))
      put(node, term('oa', 'hasSelector'), { kind: 'node', node: selector })
    }
}

const quoteTerms: readonly Name[] = ['exact', 'prefix', 'suffix'].map((word) => term('oa', word))
const positionTerms: readonly Name[] = ['start', 'end'].map((word) => term('oa', word))
