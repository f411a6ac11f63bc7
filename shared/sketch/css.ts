/** The rules of a style sheet, in the order in which the cascade puts them (CSS Cascading 4 §6), without at-rules. */
import { tokenize, TokenType, type CSSToken } from '@csstools/css-tokenizer'

export interface Declaration {
  readonly property: string
  readonly value: string
  readonly isImportant: boolean
}

export interface Rule {
  /** One selector, not a list. */
  readonly selector: string
  readonly declarations: readonly Declaration[]
}

/** The rules of a sheet, weakest first. Everything within an at-rule is left out. */
export function rulesOf(sheet: string): readonly Rule[] {
  const rules: Rule[] = []
  const tokens = tokenize({ css: sheet })
  for (let at = 0; at < tokens.length;) {
    const opening = findAt(tokens, at, (token) => isOpening(token) || token[0] === TokenType.Semicolon)
    if (opening < 0) break
    if (tokens[opening]![0] === TokenType.Semicolon) {
      at = opening + 1
      continue
    }
    const closing = findClosing(tokens, opening)
    const head = tokens.slice(at, opening)
    if (!head.some(([type]) => type === TokenType.AtKeyword)) {
      const declarations = toDeclarations(tokens.slice(opening + 1, closing))
      if (declarations.length > 0)
        for (const selector of selectorsOf(head)) rules.push({ selector, declarations })
    }
    at = closing + 1
  }
  return rules
    .map((rule, order) => ({ rule, order, weight: weightOf(rule.selector) }))
    .sort((one, other) => one.weight - other.weight || one.order - other.order)
    .map(({ rule }) => rule)
}

/** The declarations of a `style` attribute. */
export function declarationsOf(style: string): readonly Declaration[] {
  return style.includes(':') ? toDeclarations(tokenize({ css: style })) : []
}

const isOpening = ([type]: CSSToken): boolean => type === TokenType.OpenCurly

function findAt(tokens: readonly CSSToken[], from: number, is: (token: CSSToken) => boolean): number {
  for (let at = from; at < tokens.length; at += 1) if (is(tokens[at]!)) return at
  return -1
}

function findClosing(tokens: readonly CSSToken[], opening: number): number {
  let depth = 0
  for (let at = opening; at < tokens.length; at += 1) {
    if (isOpening(tokens[at]!)) depth += 1
    if (tokens[at]![0] === TokenType.CloseCurly) depth -= 1
    if (depth === 0) return at
  }
  return tokens.length
}

const isBlank = ([type]: CSSToken): boolean => type === TokenType.Whitespace || type === TokenType.Comment
const textOf = (tokens: readonly CSSToken[]): string =>
  tokens
    .filter(([type]) => type !== TokenType.Comment && type !== TokenType.EOF)
    .map(([, text]) => text)
    .join('')
    .trim()

/** Parts tokens at a kind of token that stands outside of brackets. */
function partAt(tokens: readonly CSSToken[], type: TokenType): CSSToken[][] {
  const parts: CSSToken[][] = [[]]
  let depth = 0
  for (const token of tokens) {
    if (token[0] === TokenType.OpenParen || token[0] === TokenType.Function) depth += 1
    if (token[0] === TokenType.CloseParen) depth -= 1
    if (token[0] === type && depth <= 0) parts.push([])
    else parts.at(-1)!.push(token)
  }
  return parts
}

function selectorsOf(head: readonly CSSToken[]): string[] {
  return partAt(head, TokenType.Comma)
    .map(textOf)
    .filter((selector) => selector !== '')
}

function toDeclarations(tokens: readonly CSSToken[]): Declaration[] {
  return partAt(tokens, TokenType.Semicolon).flatMap((part) => {
    const own = part.filter((token) => !isBlank(token))
    const colon = part.findIndex(([type]) => type === TokenType.Colon)
    if (own.length < 3 || own[0]![0] !== TokenType.Ident || colon < 0) return []
    const whole = textOf(part.slice(colon + 1))
    const value = whole.replace(/\s*!\s*important\s*$/iu, '')
    if (value === '') return []
    return [{ property: own[0][1].toLowerCase(), value, isImportant: value !== whole }]
  })
}

/** Specificity (Selectors 4 §17) as one number: ids, then classes, attributes and pseudo-classes, then names. */
function weightOf(selector: string): number {
  const count = (pattern: RegExp): number => (selector.match(pattern) ?? []).length
  const ids = count(/#[\w-]+/gu)
  const classes = count(/\.[\w-]+|\[[^\]]*\]|(?<!:):[\w-]+/gu)
  const names = count(/(?:^|[\s>+~(])[a-zA-Z][\w-]*/gu)
  return ids * 1_000_000 + classes * 1000 + names
}
