/**
 * PROV documents as the checker reads them, whatever form they came in. Terms of PROV-DM (W3C Recommendation, 30 April
 * 2013); names are full IRIs here.
 */

/** The relations of PROV-DM, with mentionOf of PROV-LINKS (W3C Note, 30 April 2013), and their arguments behind the identifier. */
export const signatures = {
  entity: [],
  activity: ['startTime', 'endTime'],
  agent: [],
  wasGeneratedBy: ['entity', 'activity', 'time'],
  used: ['activity', 'entity', 'time'],
  wasInformedBy: ['informed', 'informant'],
  wasStartedBy: ['activity', 'trigger', 'starter', 'time'],
  wasEndedBy: ['activity', 'trigger', 'ender', 'time'],
  wasInvalidatedBy: ['entity', 'activity', 'time'],
  wasDerivedFrom: ['generatedEntity', 'usedEntity', 'activity', 'generation', 'usage'],
  wasAttributedTo: ['entity', 'agent'],
  wasAssociatedWith: ['activity', 'agent', 'plan'],
  actedOnBehalfOf: ['delegate', 'responsible', 'activity'],
  wasInfluencedBy: ['influencee', 'influencer'],
  alternateOf: ['alternate1', 'alternate2'],
  specializationOf: ['specificEntity', 'generalEntity'],
  hadMember: ['collection', 'entity'],
  mentionOf: ['specificEntity', 'generalEntity', 'bundle'],
} as const
export type Relation = keyof typeof signatures
export const relations = Object.keys(signatures) as Relation[]

export interface Attribute {
  readonly name: string
  /** A name's IRI in angle brackets, or a literal as `lexical form^^type@language`. */
  readonly value: string
}

export interface Statement {
  readonly relation: Relation
  /** Null where the statement has none, or one that is local to its file (`_:x`). */
  readonly id: string | null
  /** As many as the relation has; null where the statement says nothing or `-`. Times as they are written. */
  readonly args: readonly (string | null)[]
  readonly attributes: readonly Attribute[]
}

export interface ProvDocument {
  readonly statements: readonly Statement[]
  readonly bundles: readonly { readonly name: string; readonly statements: readonly Statement[] }[]
}

/** A file that is no PROV document of the form that was expected. */
export class ProvFormError extends Error {}

export const PROV = 'http://www.w3.org/ns/prov#'
export const XSD = 'http://www.w3.org/2001/XMLSchema#'

/** Names of a file: prefixes with their namespaces. `prov` and `xsd` are declared in every file (PROV-N §3.7.1). */
export class Namespaces {
  private readonly known: ReadonlyMap<string, string>
  constructor(declared: Iterable<readonly [string, string]>, outer?: Namespaces) {
    this.known = new Map([...(outer?.known ?? [['prov', PROV] as const, ['xsd', XSD] as const]), ...declared])
  }

  /** The IRI of a qualified name. A name without a colon is one of the default namespace. @throws ProvFormError when its prefix is not declared */
  resolve(name: string): string {
    const colon = name.indexOf(':')
    const prefix = colon < 0 ? 'default' : name.slice(0, colon)
    const namespace = this.known.get(prefix)
    if (namespace === undefined) throw new ProvFormError(`the prefix of ${name} is not declared`)
    return namespace + name.slice(colon + 1)
  }
}

/** A literal's value. With a language it is a prov:InternationalizedString, whatever type is given. */
export function literal(lexical: string, type: string, language?: string): string {
  const name = language ? `${PROV}InternationalizedString@${language.toLowerCase()}` : toSchemaType(type)
  return `${lexical}^^${name}`
}

/** Many files declare the namespace of the schema types without its `#`. */
function toSchemaType(type: string): string {
  return type.replace(/XMLSchema(?!#)/, 'XMLSchema#')
}

/** Types whose values are names: PROV-N's own, and the one that stood in its place in earlier files. */
export function isTypeOfNames(type: string): boolean {
  return type === `${PROV}QUALIFIED_NAME` || toSchemaType(type) === `${XSD}QName`
}

/** A time in a form that is equal for equal instants; a time without an offset is no instant and equal only to itself. */
export function comparableTime(time: string): string {
  return /(Z|[+-]\d\d:\d\d)$/i.test(time) && !Number.isNaN(Date.parse(time))
    ? new Date(time).toISOString()
    : time.replace(/\.0+$/, '')
}

/** A statement in one line, equal for equal statements; alternateOf says the same either way round. */
export function toLine({ relation, id, args: given, attributes }: Statement): string {
  const args = relation === 'alternateOf' ? [...given].sort() : given
  const said = args.map((arg, i) =>
    arg !== null && /time$/i.test(signatures[relation][i]!) ? comparableTime(arg) : (arg ?? '-'),
  )
  const rest = attributes.map(({ name, value }) => `${name}=${value}`).sort()
  return `${relation}(${id ?? '-'};${said.join(',')})[${[...new Set(rest)].join(' ')}]`
}
