/** Reads PROV-JSON (W3C Member Submission, 24 April 2013). */
import {
  isTypeOfNames,
  literal,
  Namespaces,
  PROV,
  ProvFormError,
  relations,
  signatures,
  XSD,
  type Attribute,
  type ProvDocument,
  type Relation,
  type Statement,
} from './document.ts'

type Json = Readonly<Record<string, unknown>>

/** Statements of PROV-DICTIONARY (W3C Note), on which no constraint rests. */
const dictionary = ['derivedByInsertionFrom', 'derivedByRemovalFrom', 'hadDictionaryMember']

/** @throws ProvFormError where the text is no PROV-JSON, or a name's prefix is not declared */
export function readProvJson(text: string): ProvDocument {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    throw new ProvFormError(String(error))
  }
  const root = fields(value, 'the document')
  const names = namespacesOf(root)
  const bundles = Object.entries(fields(root.bundle ?? {}, 'bundle')).map(([name, content]) => {
    const inside = fields(content, `bundle ${name}`)
    const own = namespacesOf(inside, names)
    if ('bundle' in inside) throw new ProvFormError(`bundle ${name} holds a bundle`)
    return { name: own.resolve(name), statements: statementsOf(inside, own) }
  })
  return { statements: statementsOf(root, names), bundles }
}

function fields(value: unknown, what: string): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new ProvFormError(`${what} is no object`)
  return value as Json
}

function namespacesOf(holder: Json, outer?: Namespaces): Namespaces {
  const declared = Object.entries(fields(holder.prefix ?? {}, 'prefix'))
  return new Namespaces(
    declared.map(([prefix, namespace]) => [prefix, text(namespace, `prefix ${prefix}`)] as const),
    outer,
  )
}

function text(value: unknown, what: string): string {
  if (typeof value !== 'string') throw new ProvFormError(`${what} is no string`)
  return value
}

function statementsOf(holder: Json, names: Namespaces): Statement[] {
  const known = new Set<string>([...relations, ...dictionary, 'prefix', 'bundle'])
  for (const key of Object.keys(holder))
    if (!known.has(key)) throw new ProvFormError(`${key} is no relation of PROV`)
  return relations.flatMap((relation) =>
    Object.entries(fields(holder[relation] ?? {}, relation)).flatMap(([id, content]) =>
      (Array.isArray(content) ? content : [content]).flatMap((one: unknown) =>
        statementOf(relation, id, fields(one, `${relation} ${id}`), names),
      ),
    ),
  )
}

/** One statement; several for a membership that lists several entities. */
function statementOf(relation: Relation, id: string, record: Json, names: Namespaces): Statement[] {
  const own = signatures[relation].map((name) => `prov:${name}`)
  const values = own.map((key) => argumentOf(key, record[key], names))
  const attributes = Object.entries(record)
    .filter(([key]) => !own.includes(key))
    .flatMap(([key, value]) => attributesOf(key, value, names))
  const identity = id.startsWith('_:') ? null : names.resolve(id)
  const most = Math.max(1, ...values.map((list) => list.length))
  if (most > 1 && relation !== 'hadMember') throw new ProvFormError(`${relation} ${id} repeats an argument`)
  return Array.from({ length: most }, (_, i) => ({
    relation,
    id: identity,
    args: values.map((list) => list[Math.min(i, list.length - 1)] ?? null),
    attributes,
  }))
}

function argumentOf(key: string, value: unknown, names: Namespaces): string[] {
  if (value === undefined) return []
  const list = Array.isArray(value) ? value : [value]
  return list.map((one: unknown) => {
    const said = typeof one === 'object' && one !== null && '$' in one ? one.$ : one
    const word = text(said, key)
    return /time$/i.test(key) ? word : names.resolve(word)
  })
}

function attributesOf(key: string, value: unknown, names: Namespaces): Attribute[] {
  const name = names.resolve(key)
  const list = Array.isArray(value) ? value : [value]
  return list.map((one: unknown) => ({ name, value: valueOf(one, names) }))
}

function valueOf(value: unknown, names: Namespaces): string {
  if (typeof value === 'string') return literal(value, `${XSD}string`)
  if (typeof value === 'boolean') return literal(String(value), `${XSD}boolean`)
  if (typeof value === 'number')
    return literal(String(value), `${XSD}${Number.isInteger(value) ? 'int' : 'double'}`)
  const typed = fields(value, 'a value')
  const lexical = text(typed.$, 'a value’s $')
  if (typed.lang !== undefined) return literal(lexical, '', text(typed.lang, 'lang'))
  const type = typed.type === undefined ? `${XSD}string` : names.resolve(text(typed.type, 'type'))
  if (isTypeOfNames(type)) return `<${names.resolve(lexical)}>`
  return type === `${PROV}InternationalizedString` ? literal(lexical, `${XSD}string`) : literal(lexical, type)
}
