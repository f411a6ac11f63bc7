/** Reads PROV-N (W3C Recommendation, 30 April 2013). */
import {
  isTypeOfNames,
  literal,
  Namespaces,
  ProvFormError,
  signatures,
  XSD,
  type Attribute,
  type ProvDocument,
  type Relation,
  type Statement,
} from './document.ts'

/**
 * A name, a literal with its quotes, or one of the signs. A name's own signs may be escaped by a backslash (PN_CHARS_ESC),
 * and IRIs stand in angle brackets.
 */
const tokens =
  /\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\/|(<[^<>\s]*>|"""(?:[^"\\]|\\[\s\S]|"(?!""))*"""|"(?:[^"\\\n]|\\[\s\S])*"|'(?:[^'\\\n]|\\[\s\S])*'|@[A-Za-z]+(?:-[A-Za-z0-9]+)*|%%|[(),;[\]{}=]|(?:[^\s(),;[\]{}='"<>\\]|\\[\s\S])+)/gy

/** @throws ProvFormError where the text is no PROV-N, or a name's prefix is not declared */
export function readProvN(text: string): ProvDocument {
  return new Reader(text).document()
}

class Reader {
  private readonly words: string[] = []
  private at = 0

  constructor(text: string) {
    tokens.lastIndex = 0
    while (tokens.lastIndex < text.length) {
      const start = tokens.lastIndex
      const match = tokens.exec(text)
      if (!match) throw new ProvFormError(`not PROV-N at ${start}: ${text.slice(start, start + 40)}`)
      if (match[1] !== undefined) this.words.push(match[1])
    }
  }

  document(): ProvDocument {
    this.take('document')
    const names = this.namespaces()
    const statements = this.statements(names)
    const bundles: ProvDocument['bundles'][number][] = []
    while (this.maybe('bundle')) {
      const name = this.next()
      const own = this.namespaces(names)
      bundles.push({ name: own.resolve(unescapeName(name)), statements: this.statements(own) })
      this.take('endBundle')
    }
    this.take('endDocument')
    if (this.at < this.words.length)
      throw new ProvFormError(`something stands behind the document: ${this.peek()}`)
    return { statements, bundles }
  }

  private namespaces(outer?: Namespaces): Namespaces {
    const declared: [string, string][] = []
    for (;;) {
      if (this.maybe('default')) declared.push(['default', this.iri()])
      else if (this.maybe('prefix')) declared.push([this.next(), this.iri()])
      else return new Namespaces(declared, outer)
    }
  }

  private statements(names: Namespaces): Statement[] {
    const all: Statement[] = []
    while (!['bundle', 'endBundle', 'endDocument', undefined].includes(this.words[this.at])) {
      const statement = this.statement(names)
      if (statement) all.push(statement)
    }
    return all
  }

  /** Null for a statement of an extension, which PROV-N has by a qualified name in the place of the keyword. */
  private statement(names: Namespaces): Statement | null {
    const keyword = this.next()
    this.take('(')
    if (keyword.includes(':')) {
      this.skipExtension()
      return null
    }
    if (!(keyword in signatures)) throw new ProvFormError(`${keyword} is no relation of PROV`)
    const relation = keyword as Relation
    const isThing = ['entity', 'activity', 'agent'].includes(relation)
    let id: string | null = null
    if (isThing) id = this.next()
    else if (this.words[this.at + 1] === ';') {
      id = this.next()
      this.take(';')
    }
    const args = this.args(relation, names, isThing)
    const attributes = this.peek() === '[' ? this.attributes(names) : []
    this.take(')')
    return {
      relation,
      id: id === null || id === '-' ? null : names.resolve(unescapeName(id)),
      args,
      attributes,
    }
  }

  private args(relation: Relation, names: Namespaces, isThing: boolean): (string | null)[] {
    const wanted = signatures[relation]
    const args: (string | null)[] = []
    let isFirst = !isThing
    while (isFirst || this.maybe(',')) {
      if (this.peek() === '[') break
      isFirst = false
      const word = this.next()
      const kind = wanted[args.length]
      if (kind === undefined) throw new ProvFormError(`${relation} has too many arguments`)
      args.push(word === '-' ? null : /time$/i.test(kind) ? word : names.resolve(unescapeName(word)))
    }
    return wanted.map((_, i) => args[i] ?? null)
  }

  private attributes(names: Namespaces): Attribute[] {
    const all: Attribute[] = []
    this.take('[')
    while (this.peek() !== ']') {
      const name = names.resolve(unescapeName(this.next()))
      this.take('=')
      all.push({ name, value: this.value(names) })
      if (!this.maybe(',')) break
    }
    this.take(']')
    return all
  }

  private value(names: Namespaces): string {
    const word = this.next()
    if (word.startsWith("'")) return `<${names.resolve(unescapeName(word.slice(1, -1)))}>`
    if (!word.startsWith('"')) {
      if (!/^-?\d+$/.test(word)) throw new ProvFormError(`${word} is no value`)
      return literal(word, `${XSD}int`)
    }
    const quotes = word.startsWith('"""') ? 3 : 1
    const lexical = unescape(word.slice(quotes, -quotes))
    if (this.maybe('%%')) {
      const type = names.resolve(unescapeName(this.next()))
      return isTypeOfNames(type) ? `<${names.resolve(lexical)}>` : literal(lexical, type)
    }
    if (this.peek()?.startsWith('@')) return literal(lexical, '', this.next().slice(1))
    return literal(lexical, `${XSD}string`)
  }

  private skipExtension(): void {
    for (let depth = 1; depth > 0;) {
      const word = this.next()
      if (word === '(') depth++
      if (word === ')') depth--
    }
  }

  private iri(): string {
    const word = this.next()
    if (!/^<.*>$/.test(word)) throw new ProvFormError(`${word} is no IRI in angle brackets`)
    return word.slice(1, -1)
  }

  private peek(): string | undefined {
    return this.words[this.at]
  }

  private next(): string {
    const word = this.words[this.at++]
    if (word === undefined) throw new ProvFormError('the document ends too early')
    return word
  }

  private take(wanted: string): void {
    const word = this.next()
    if (word !== wanted) throw new ProvFormError(`${wanted} is wanted where ${word} stands`)
  }

  private maybe(wanted: string): boolean {
    if (this.peek() !== wanted) return false
    this.at++
    return true
  }
}

const escapes: Readonly<Record<string, string>> = { t: '\t', b: '\b', n: '\n', r: '\r', f: '\f' }

/** PN_CHARS_ESC: the backslash only says that the sign behind it is one of the name. */
function unescapeName(name: string): string {
  return name.replace(/\\([\s\S])/g, '$1')
}

function unescape(text: string): string {
  return text.replace(/\\([\s\S])/g, (_, sign: string) => escapes[sign] ?? sign)
}
