/** Reads as much of PROV-XML (W3C Note, 30 April 2013) as the W3C's cases that exist in no other form here need. */
import { DOMParser, type Element } from '@xmldom/xmldom'
import {
  isTypeOfNames,
  literal,
  PROV,
  ProvFormError,
  signatures,
  XSD,
  type Attribute,
  type ProvDocument,
  type Relation,
  type Statement,
} from './document.ts'

const XSI = 'http://www.w3.org/2001/XMLSchema-instance'

/** @throws ProvFormError for what is no statement of PROV-DM */
export function readProvXml(text: string): ProvDocument {
  const root = new DOMParser().parseFromString(text, 'text/xml').documentElement
  if (root?.localName !== 'document' || root.namespaceURI !== PROV) throw new ProvFormError('no PROV-XML')
  return { statements: elementsOf(root).map(statementOf), bundles: [] }
}

function elementsOf(element: Element): Element[] {
  return Array.from(element.childNodes).filter((node): node is Element => node.nodeType === 1)
}

function statementOf(element: Element): Statement {
  const relation = element.localName as Relation
  if (!(relation in signatures)) throw new ProvFormError(`${relation} is no relation of PROV`)
  const children = elementsOf(element)
  const isArgument = (child: Element): boolean =>
    (signatures[relation] as readonly string[]).includes(child.localName!) && child.namespaceURI === PROV
  const args = signatures[relation].map((name) => {
    const child = children.find((one) => isArgument(one) && one.localName === name)
    if (!child) return null
    const ref = child.getAttributeNS(PROV, 'ref')
    return ref ? resolve(child, ref) : (child.textContent ?? '').trim()
  })
  const id = element.getAttributeNS(PROV, 'id')
  return {
    relation,
    id: id ? resolve(element, id) : null,
    args,
    attributes: children.filter((child) => !isArgument(child)).map(attributeOf),
  }
}

function attributeOf(element: Element): Attribute {
  const lexical = (element.textContent ?? '').trim()
  const type = element.getAttributeNS(XSI, 'type')
  const name = `${element.namespaceURI}${element.localName}`
  const full = type ? resolve(element, type) : `${XSD}string`
  return { name, value: isTypeOfNames(full) ? `<${resolve(element, lexical)}>` : literal(lexical, full) }
}

function resolve(element: Element, name: string): string {
  const [prefix, local] = name.split(':') as [string, string]
  const namespace = element.lookupNamespaceURI(prefix)
  if (namespace === null) throw new ProvFormError(`the prefix of ${name} is not declared`)
  return namespace + (namespace.endsWith('XMLSchema') ? '#' : '') + local
}
