/** PROV-JSON (W3C Member Submission, 24 April 2013). */
import { signatures, type Attribute, type ProvDocument, type Statement, type Value } from './model.ts'

type JsonValue = string | { readonly $: string; readonly type: string }
type JsonRecord = Record<string, JsonValue | readonly JsonValue[]>

/** The document as JSON, one statement a line; `\n` line ends. Valid by the schema of the submission. */
export function toProvJson({ prefixes, statements }: ProvDocument): string {
  const groups = new Map<string, string[]>()
  for (const [i, statement] of statements.entries()) {
    const key = statement.id ?? `_:${statement.relation}.${i + 1}`
    const line = `    ${JSON.stringify(key)}: ${JSON.stringify(recordOf(statement))}`
    const group = groups.get(statement.relation)
    if (group) group.push(line)
    else groups.set(statement.relation, [line])
  }
  const declared = prefixes.map(
    ([prefix, namespace]) => `    ${JSON.stringify(prefix)}: ${JSON.stringify(namespace)}`,
  )
  const parts = [['prefix', declared] as const, ...groups].map(
    ([name, lines]) => `  ${JSON.stringify(name)}: {\n${lines.join(',\n')}\n  }`,
  )
  return `{\n${parts.join(',\n')}\n}\n`
}

function recordOf({ relation, args, attributes }: Statement): JsonRecord {
  const record: JsonRecord = {}
  signatures[relation].forEach((name, i) => {
    const said = args[i]
    if (said) record[`prov:${name}`] = said
  })
  for (const [name, values] of groupAttributes(attributes)) {
    const json = values.map(toJsonValue)
    record[name] = json.length === 1 ? json[0]! : json
  }
  return record
}

/** Attributes that stand several times under one name. */
export function groupAttributes(attributes: readonly Attribute[]): Map<string, Value[]> {
  const groups = new Map<string, Value[]>()
  for (const { name, value } of attributes) {
    const group = groups.get(name)
    if (group) group.push(value)
    else groups.set(name, [value])
  }
  return groups
}

function toJsonValue(value: Value): JsonValue {
  switch (value.kind) {
    case 'name':
      return { $: value.name, type: 'prov:QUALIFIED_NAME' }
    case 'text':
      return value.text
    case 'number':
      return { $: String(value.number), type: `xsd:${value.type ?? 'int'}` }
    case 'address':
      return { $: value.address, type: 'xsd:anyURI' }
  }
}
