/** What a bundle states and what follows from it, with terms in the places of names. */
import { comparableTime, PROV, signatures, XSD, type Relation, type Statement } from './document.ts'
import type { Term, Terms } from './terms.ts'

export interface Fact {
  readonly relation: Relation
  /** Of relations that PROV-DM gives no identifier, a variable that means nothing. */
  id: Term
  readonly args: Term[]
  readonly attributes: Set<string>
}

/** A constraint that a bundle breaks. `DM`: an argument that PROV-DM asks for is missing. */
export interface Violation {
  readonly constraint: number | 'DM'
  readonly says: string
}

/** Relations with an identifier: Constraint 23 (key-properties), Constraint 54. */
export const identified: readonly Relation[] = [
  'wasGeneratedBy',
  'used',
  'wasInformedBy',
  'wasStartedBy',
  'wasEndedBy',
  'wasInvalidatedBy',
  'wasDerivedFrom',
  'wasAttributedTo',
  'wasAssociatedWith',
  'actedOnBehalfOf',
  'wasInfluencedBy',
]
export const things: readonly Relation[] = ['entity', 'activity', 'agent']

/**
 * Arguments that may be left out. `expand`: then something unsaid is there (Definition 4, Table 3); `nothing`: then nothing
 * is. All others are mandatory in PROV-DM; for the responsible agent of a delegation the W3C's test unification-delegation-s3
 * decides that it may be unsaid.
 */
const optional: { readonly [R in Relation]?: Readonly<Record<string, 'expand' | 'nothing'>> } = {
  activity: { startTime: 'expand', endTime: 'expand' },
  wasGeneratedBy: { activity: 'expand', time: 'expand' },
  used: { entity: 'expand', time: 'expand' },
  wasStartedBy: { trigger: 'expand', starter: 'expand', time: 'expand' },
  wasEndedBy: { trigger: 'expand', ender: 'expand', time: 'expand' },
  wasInvalidatedBy: { activity: 'expand', time: 'expand' },
  wasDerivedFrom: { activity: 'nothing', generation: 'nothing', usage: 'nothing' },
  wasAssociatedWith: { agent: 'expand', plan: 'nothing' },
  actedOnBehalfOf: { responsible: 'expand', activity: 'expand' },
}

export class Facts {
  readonly all: Fact[] = []
  readonly violations: Violation[] = []

  constructor(readonly terms: Terms) {}

  /** Puts statements in their full form: Definitions 1 to 4. */
  static of(statements: readonly Statement[], terms: Terms): Facts {
    const facts = new Facts(terms)
    for (const statement of statements) facts.state(statement)
    return facts
  }

  private state(statement: Statement): void {
    const { relation, id, attributes } = statement
    const missing = this.missingIn(statement)
    if (missing) return this.violate('DM', `${relation} ${id ?? ''} names no ${missing}`)
    this.all.push({
      relation,
      id: id === null ? this.terms.variable() : this.terms.constant(id),
      args: signatures[relation].map((_, i) => this.argument(statement, i)),
      attributes: new Set(attributes.map(({ name, value }) => `${name} ${value}`)),
    })
  }

  private missingIn({ relation, id, args }: Statement): string | undefined {
    if (things.includes(relation) && id === null) return 'identifier'
    return signatures[relation].find((name, i) => args[i] === null && !optional[relation]?.[name])
  }

  private argument({ relation, args }: Statement, i: number): Term {
    const name = signatures[relation][i]!
    const said = args[i]!
    if (said !== null) return this.terms.constant(/time$/i.test(name) ? comparableTime(said) : said)
    const isExpanded = optional[relation]?.[name] === 'expand' || isEventOfActivity(relation, name, args)
    return isExpanded ? this.terms.variable() : this.terms.placeholder()
  }

  add(relation: Relation, args: readonly Term[], id = this.terms.variable()): void {
    this.all.push({ relation, id, args: [...args], attributes: new Set() })
  }

  of(relation: Relation): Fact[] {
    return this.all.filter((fact) => fact.relation === relation)
  }

  violate(constraint: Violation['constraint'], says: string): void {
    this.violations.push({ constraint, says })
  }

  /** For people: a fact as PROV-N would write it. */
  say({ relation, id, args }: Fact): string {
    return `${relation}(${[id, ...args].map((term) => this.terms.say(term)).join(', ')})`
  }
}

/** Of a derivation whose activity is said there was a generation and a usage, said or not. */
function isEventOfActivity(relation: Relation, name: string, args: Statement['args']): boolean {
  return (
    relation === 'wasDerivedFrom' &&
    (name === 'generation' || name === 'usage') &&
    args[signatures.wasDerivedFrom.indexOf('activity')] !== null
  )
}

/** The prov:types of a fact, as IRIs: values that are names or IRIs. */
export function typesOf({ attributes }: Fact): string[] {
  return [...attributes].flatMap((attribute) => {
    const match = typeAttribute.exec(attribute)
    return match ? [match[1] ?? match[2]!] : []
  })
}

const typeAttribute = new RegExp(`^${PROV}type (?:<(.*)>|(.*)\\^\\^${XSD}anyURI)$`)

/** Groups facts under a key; equal keys share one list. */
export function groupBy(
  facts: readonly Fact[],
  keyOf: (fact: Fact) => string | number,
): Map<string | number, Fact[]> {
  const groups = new Map<string | number, Fact[]>()
  for (const fact of facts) {
    const key = keyOf(fact)
    const group = groups.get(key)
    if (group) group.push(fact)
    else groups.set(key, [fact])
  }
  return groups
}
