/**
 * A record of the tokens that carry characters, taken while mdast-util-from-markdown builds its tree.
 * The tree alone says where a text node begins and ends, not where each character of it came from:
 * escapes, character references, line prefixes and code fences stand between.
 */
import type { CompileContext, Extension, Token } from 'mdast-util-from-markdown'

/** `source.slice(from, to)` was read as `value`. */
export interface TextToken {
  readonly from: number
  readonly to: number
  readonly value: string
  /** Line endings and code values are told apart from inline text, since a code block's info string holds both. */
  readonly type: 'text' | 'code' | 'line ending'
}

/** Tokens in source order, not overlapping. */
export type TokenRecord = readonly TextToken[]

/** The tokens whose characters the tree takes over as they are. */
const literalTokens: Readonly<Record<string, TextToken['type']>> = {
  data: 'text',
  htmlFlowData: 'text',
  htmlTextData: 'text',
  codeTextData: 'code',
  codeFlowValue: 'code',
}

/** An extension for one run of fromMarkdown and the record that it fills. */
export function createTokenRecord(): { extension: Extension; record: TextToken[] } {
  const record: TextToken[] = []
  const closeLiteral = function (this: CompileContext, token: Token): void {
    closeText(this, token)
    record.push({ ...placeOf(token), value: this.sliceSerialize(token), type: literalTokens[token.type]! })
  }
  const literals = Object.fromEntries(Object.keys(literalTokens).map((type) => [type, closeLiteral]))
  return { extension: { enter: { ...decodedTokens(record) }, exit: literals }, record }
}

/** What mdast-util-from-markdown does itself at the end of these tokens; a handle here takes that one's place. */
function closeText(context: CompileContext, token: Token): void {
  const node = context.stack.pop()
  if (!node || !('value' in node)) throw new Error(`no open text at a ${token.type}`)
  node.value += context.sliceSerialize(token)
  const { line, column, offset } = token.end
  if (node.position) node.position.end = { line, column, offset }
}

/** Handles at the start of tokens that the library handles only at their end. */
function decodedTokens(record: TextToken[]): NonNullable<Extension['enter']> {
  let opened: { from: number; length: number } | undefined
  return {
    lineEnding(token) {
      record.push({ ...placeOf(token), value: this.sliceSerialize(token), type: 'line ending' })
    },
    characterEscapeValue(token) {
      const { from, to } = placeOf(token)
      record.push({ from: from - 1, to, value: this.sliceSerialize(token), type: 'text' })
    },
    /** `&` before the value and `;` behind it, when the value has been decoded and added to the open text. */
    characterReferenceMarker(token) {
      const text = openText(this)
      const { from, to } = placeOf(token)
      if (opened) record.push({ from: opened.from, to, value: text.slice(opened.length), type: 'text' })
      opened = opened ? undefined : { from, length: text.length }
    },
  }
}

const placeOf = (token: Token): { from: number; to: number } => ({
  from: token.start.offset,
  to: token.end.offset,
})

function openText(context: CompileContext): string {
  const node = context.stack[context.stack.length - 1]
  return node && 'value' in node ? node.value : ''
}

/**
 * The tokens that lie within a range of the source, found by halving. One that only reaches into it is cut:
 * the tree leaves out the space behind a task's box, which is part of a token.
 */
export function tokensWithin(record: TokenRecord, start: number, end: number): readonly TextToken[] {
  let low = 0
  let high = record.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (record[middle]!.to <= start) low = middle + 1
    else high = middle
  }
  const found: TextToken[] = []
  for (let i = low; i < record.length && record[i]!.from < end; i += 1)
    found.push(cutToken(record[i]!, start, end))
  return found
}

function cutToken(token: TextToken, start: number, end: number): TextToken {
  const isLinear = token.to - token.from === token.value.length
  if (!isLinear || (token.from >= start && token.to <= end)) return token
  const from = Math.max(token.from, start)
  const to = Math.min(token.to, end)
  return { ...token, from, to, value: token.value.slice(from - token.from, to - token.from) }
}
