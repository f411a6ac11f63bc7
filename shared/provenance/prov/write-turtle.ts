/** RDF 1.1 Turtle (W3C Recommendation, 25 February 2014). */
import type { ProvDocument } from './model.ts'
import type { Name } from './names.ts'
import { toRdf, type RdfNode, type RdfValue } from './rdf.ts'
import { quote } from './write-n.ts'

/** The document in PROV-O terms; a node is a paragraph, `\n` line ends. */
export function toTurtle(document: ProvDocument): string {
  const { prefixes, nodes } = toRdf(document)
  const declared = prefixes.map(([prefix, namespace]) => `@prefix ${prefix}: <${namespace}> .`)
  return [...declared, '', ...nodes.map(toParagraph), ''].join('\n')
}

function toParagraph(node: RdfNode): string {
  return `${node.name}\n${propertiesOf(node, '  ').join(' ;\n')} .\n`
}

function propertiesOf({ types, properties }: RdfNode, indent: string): string[] {
  const line = (predicate: string, objects: readonly string[]): string =>
    `${indent}${predicate} ${objects.join(', ')}`
  return [
    ...(types.length === 0 ? [] : [line('a', types)]),
    ...[...properties].map(([predicate, values]: [Name, RdfValue[]]) =>
      line(
        predicate,
        values.map((value) => toObject(value, indent)),
      ),
    ),
  ]
}

function toObject(value: RdfValue, indent: string): string {
  switch (value.kind) {
    case 'name':
      return value.name
    case 'text':
      return quote(value.text)
    case 'number':
      return `"${value.number}"^^xsd:${value.type ?? 'int'}`
    case 'address':
      return `${quote(value.address)}^^xsd:anyURI`
    case 'time':
      return `"${value.time}"^^xsd:dateTime`
    case 'node':
      return `[\n${propertiesOf(value.node, `${indent}  `).join(' ;\n')}\n${indent}]`
  }
}
