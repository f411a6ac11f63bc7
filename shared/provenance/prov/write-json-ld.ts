/**
 * JSON-LD 1.1 (W3C Recommendation, 16 July 2020). Its context stands in the file itself, so reading it needs no network.
 * Selectors are written with the keys of the Web Annotation Data Model.
 */
import type { ProvDocument } from './model.ts'
import type { Name } from './names.ts'
import { toRdf, type RdfNode, type RdfValue } from './rdf.ts'

/** Keys of the Web Annotation context (http://www.w3.org/ns/anno.jsonld) that stand for terms here. */
const annotationKeys: Readonly<Record<string, unknown>> = {
  id: '@id',
  type: '@type',
  SpecificResource: 'oa:SpecificResource',
  TextQuoteSelector: 'oa:TextQuoteSelector',
  TextPositionSelector: 'oa:TextPositionSelector',
  source: { '@id': 'oa:hasSource', '@type': '@id' },
  selector: { '@id': 'oa:hasSelector', '@type': '@id' },
  exact: 'oa:exact',
  prefix: 'oa:prefix',
  suffix: 'oa:suffix',
  start: { '@id': 'oa:start', '@type': 'xsd:nonNegativeInteger' },
  end: { '@id': 'oa:end', '@type': 'xsd:nonNegativeInteger' },
}
/** Terms by those keys, for writing. */
const keys: ReadonlyMap<string, string> = new Map(
  Object.entries(annotationKeys).map(([key, value]) => [
    typeof value === 'string' ? value : (value as { '@id': string })['@id'],
    key,
  ]),
)

type Json = string | number | JsonObject | readonly Json[]
interface JsonObject {
  [key: string]: Json
}

/** The document in PROV-O terms, one node a line; `\n` line ends. */
export function toJsonLd(document: ProvDocument): string {
  const { prefixes, nodes } = toRdf(document)
  const context = { '@version': 1.1, ...Object.fromEntries(prefixes), ...annotationKeys }
  const lines = nodes.map((node) => `    ${JSON.stringify(toObject(node))}`)
  return `{\n  "@context": ${JSON.stringify(context)},\n  "@graph": [\n${lines.join(',\n')}\n  ]\n}\n`
}

function toObject({ name, types, properties }: RdfNode): JsonObject {
  const node: JsonObject = {}
  if (name !== null) node.id = name
  if (types.length > 0) node.type = oneOrAll(types.map(toKey))
  for (const [predicate, values] of properties)
    node[toKey(predicate)] = oneOrAll(values.map((value) => toJson(predicate, value)))
  return node
}

function toJson(predicate: Name, value: RdfValue): Json {
  switch (value.kind) {
    case 'name':
      return isReference(predicate) ? value.name : { id: value.name }
    case 'text':
      return value.text
    case 'number':
      return isPosition(predicate)
        ? value.number
        : { '@type': `xsd:${value.type ?? 'int'}`, '@value': String(value.number) }
    case 'address':
      return { '@type': 'xsd:anyURI', '@value': value.address }
    case 'time':
      return { '@type': 'xsd:dateTime', '@value': value.time }
    case 'node':
      return toObject(value.node)
  }
}

const toKey = (name: Name): string => keys.get(name) ?? name
const isReference = (predicate: Name): boolean =>
  predicate === 'oa:hasSource' || predicate === 'oa:hasSelector'
const isPosition = (predicate: Name): boolean => predicate === 'oa:start' || predicate === 'oa:end'

function oneOrAll(values: readonly Json[]): Json {
  return values.length === 1 ? values[0]! : values
}
