/**
 * Style sheets of a kept page, made so that they reach nowhere: no imports, no addresses but pictures that stand in them.
 * Read as CSS Syntax Level 3 tells it, so that escapes and comments hide nothing.
 */
import { tokenize, TokenType, type CSSToken } from '@csstools/css-tokenizer'
import { isPictureData } from '../markdown/addresses.ts'

/** Finds the picture that an address in a style sheet names, as an address that holds it; undefined where it is not there. */
export type FindPicture = (address: string) => string | undefined

/** Functions whose arguments can be addresses. Their whole content goes. */
const reachingFunctions = new Set([
  'src',
  'image',
  'image-set',
  '-webkit-image-set',
  'cross-fade',
  '-webkit-cross-fade',
  'element',
  'paint',
  'expression',
])
const droppedRules = new Set(['import', 'charset', 'namespace'])

const closers: Readonly<Record<string, string>> = {
  [TokenType.OpenParen]: ')',
  [TokenType.Function]: ')',
  [TokenType.OpenSquare]: ']',
  [TokenType.OpenCurly]: '}',
}
const closing: Readonly<Record<string, string>> = {
  [TokenType.CloseParen]: ')',
  [TokenType.CloseSquare]: ']',
  [TokenType.CloseCurly]: '}',
}

/** A style sheet that loads nothing and ends where it ends: brackets and strings are closed. */
export function toQuietSheet(css: string, findPicture: FindPicture): string {
  return quiet(css, findPicture, true)
}

/** The declarations of one style attribute, for the inside of one rule: no brace can end it. */
export function toQuietDeclarations(css: string, findPicture: FindPicture): string {
  return quiet(css, findPicture, false)
}

function quiet(css: string, findPicture: FindPicture, hasBlocks: boolean): string {
  // An escape at the very end would take the bracket that is put behind it.
  const tokens = tokenize({ css: css.replace(/\\+$/u, '') })
  const open: string[] = []
  let out = ''
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at]!
    const [type, raw] = token
    if (type === TokenType.AtKeyword && droppedRules.has(token[4].value.toLowerCase())) {
      at = endOfRule(tokens, at)
      out += gap
    } else if (type === TokenType.URL) out += addressOf(token[4].value, findPicture)
    else if (type === TokenType.Function && isReaching(token[4].value)) {
      const end = endOfFunction(tokens, at)
      out += addressOf(token[4].value.toLowerCase() === 'url' ? soleString(tokens, at, end) : '', findPicture)
      at = end
    } else if (isDropped(token) || (!hasBlocks && isBrace(type)) || isStray(type, open)) out += gap
    else {
      if (closers[type] !== undefined) open.push(closers[type])
      else if (closing[type] !== undefined) open.pop()
      out += raw
    }
  }
  return closeAll(out.trim(), open)
}

/** Stands for what was left out, so that its neighbours make no new word: `u/**\/rl(` must not become `url(`. */
const gap = ' '

/** A bracket that closes nothing goes, so that what stands behind it means the same to every reader. */
function isStray(type: string, open: readonly string[]): boolean {
  return closing[type] !== undefined && open.at(-1) !== closing[type]
}

/** `<` before a letter, `/` or `!` could end the element that the sheet stands in. */
function closeAll(css: string, open: readonly string[]): string {
  return (css + [...open].reverse().join('')).replace(/<(?=[/!?a-z])/giu, '\\3c ')
}

const isBrace = (type: string): boolean => type === TokenType.OpenCurly || type === TokenType.CloseCurly

function isDropped(token: CSSToken): boolean {
  const [type, raw] = token
  if (
    type === TokenType.Comment ||
    type === TokenType.CDO ||
    type === TokenType.CDC ||
    type === TokenType.EOF
  )
    return true
  if (type === TokenType.BadString || type === TokenType.BadURL) return true
  // A string that the end of the file closed has no closing quote.
  return type === TokenType.String && (raw.length < 2 || raw[0] !== raw[raw.length - 1])
}

const isReaching = (name: string): boolean =>
  name.toLowerCase() === 'url' || reachingFunctions.has(name.toLowerCase())

function endOfRule(tokens: readonly CSSToken[], from: number): number {
  let at = from
  while (at < tokens.length - 1 && tokens[at]![0] !== TokenType.Semicolon && !isBrace(tokens[at]![0])) at += 1
  return isBrace(tokens[at]![0]) ? at - 1 : at
}

function endOfFunction(tokens: readonly CSSToken[], from: number): number {
  let depth = 0
  for (let at = from; at < tokens.length; at += 1) {
    const [type] = tokens[at]!
    if (type === TokenType.Function || type === TokenType.OpenParen) depth += 1
    else if (type === TokenType.CloseParen) depth -= 1
    if (depth === 0) return at
  }
  return tokens.length - 1
}

function soleString(tokens: readonly CSSToken[], from: number, to: number): string {
  const strings = tokens.slice(from + 1, to).filter(([type]) => type === TokenType.String)
  const only = strings.length === 1 ? strings[0]! : undefined
  return only?.[0] === TokenType.String ? only[4].value : ''
}

/** `none` where nothing came along: it is valid where most pictures may stand. */
function addressOf(address: string, findPicture: FindPicture): string {
  const found = isPictureData(address) ? address.replace(/\s+/gu, '') : findPicture(address)
  return found !== undefined && isPictureData(found) ? `url("${found}")` : 'none'
}
