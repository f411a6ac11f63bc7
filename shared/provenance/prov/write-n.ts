/** PROV-N (W3C Recommendation, 30 April 2013). */
import {
  signatures,
  type Attribute,
  type ProvDocument,
  type Relation,
  type Statement,
  type Value,
} from './model.ts'

/** Prefixes that every document has without declaring them (§3.7.1); declaring them again is not allowed. */
const given: readonly string[] = ['prov', 'xsd']

/** Relations in which the identifier stands with the arguments, and not before a semicolon. */
const things: readonly Relation[] = ['entity', 'activity', 'agent']
/** Relations that take neither an identifier nor attributes. */
const bare: readonly Relation[] = ['specializationOf', 'alternateOf', 'hadMember']

/** The document, one statement a line; `\n` line ends. */
export function toProvN({ prefixes, statements }: ProvDocument): string {
  const declared = prefixes
    .filter(([prefix]) => !given.includes(prefix))
    .map(([prefix, namespace]) => `prefix ${prefix} <${namespace}>`)
  return ['document', ...declared, '', ...statements.map(toLine), 'endDocument', ''].join('\n')
}

function toLine({ relation, id, args, attributes }: Statement): string {
  const said = signatures[relation].map((_, i) => args[i] ?? '-')
  const isThing = things.includes(relation)
  const words = isThing ? [id ?? '-', ...said] : said
  const before = !isThing && id !== null ? `${id}; ` : ''
  const behind =
    attributes.length === 0 || bare.includes(relation) ? '' : `, [${attributes.map(toWords).join(', ')}]`
  return `${relation}(${before}${words.join(', ')}${behind})`
}

function toWords({ name, value }: Attribute): string {
  return `${name}=${toLiteral(value)}`
}

function toLiteral(value: Value): string {
  switch (value.kind) {
    case 'name':
      return `'${value.name}'`
    case 'text':
      return quote(value.text)
    case 'number':
      return `"${value.number}" %% xsd:${value.type ?? 'int'}`
    case 'address':
      return `${quote(value.address)} %% xsd:anyURI`
  }
}

const escapes: Readonly<Record<string, string>> = {
  '\\': '\\\\',
  '"': '\\"',
  '\n': '\\n',
  '\r': '\\r',
  '\t': '\\t',
  '\b': '\\b',
  '\f': '\\f',
}

/** STRING_LITERAL2 of SPARQL, which PROV-N and Turtle share: line ends and quotes are escaped, all else stands as it is. */
export function quote(words: string): string {
  return `"${words.replace(/[\\"\n\r\t\b\f]/g, (sign) => escapes[sign]!)}"`
}
