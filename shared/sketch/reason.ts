/** Why a text could not be drawn, in a sentence that names the line. */
import type { NotDrawn } from './drawn.ts'

/** What the library's errors hold, as far as it is known. */
interface Faulty {
  readonly message?: unknown
  /** Of its older grammars. Lines count from 0 or from 1, depending on the grammar; `loc.last_line` counts from 1. */
  readonly hash?: {
    readonly text?: unknown
    readonly line?: unknown
    readonly loc?: { readonly first_line?: unknown; readonly last_line?: unknown }
  }
  /** Of its newer grammars. */
  readonly result?: {
    readonly lexerErrors?: readonly { readonly line?: unknown; readonly message?: unknown }[]
    readonly parserErrors?: readonly {
      readonly token?: { readonly startLine?: unknown; readonly image?: unknown }
      readonly previousToken?: { readonly startLine?: unknown }
    }[]
  }
}

/**
 * @param error what the library threw
 * @param text what it was to draw
 * @param lineOf the line of `text` that a line of what the library read stands for, both counted from 1
 */
export function toReason(error: unknown, text: string, lineOf: (line: number) => number): NotDrawn {
  const faulty = (typeof error === 'object' && error !== null ? error : { message: String(error) }) as Faulty
  const message = typeof faulty.message === 'string' ? faulty.message : ''
  if (/edge limit exceeded|maximum text size/iu.test(message)) return tooLarge
  if (/no diagram type detected|unknowndiagram/iu.test(message)) return noKind(text)
  const second = /be only one root[^]*\("(.*)"\)/u.exec(message)?.[1]
  if (second !== undefined) return secondRoot(text, second)
  const found = findPlace(faulty, message)
  if (!found) return { ok: false, code: 'text', line: null, reason: 'This text does not make a diagram.' }
  const line = Math.min(lineOf(found.line), lastLineOf(text))
  const words = quoted(found.words) ?? quoted(text.split('\n')[line - 1] ?? '')
  const what = words === null ? 'something is missing here.' : `${words} does not fit here.`
  return { ok: false, code: 'text', line, reason: `Line ${line}: ${what}` }
}

/** Said of a text or a drawing beyond the bounds. */
export const tooLarge: NotDrawn = {
  ok: false,
  code: 'too large',
  line: null,
  reason: 'This diagram is too large to be drawn. Make two smaller ones of it.',
}

/** Said when the time was up. */
export const tooSlow: NotDrawn = {
  ok: false,
  code: 'too slow',
  line: null,
  reason: 'Drawing this diagram took too long and was ended. Make it smaller, or two of it.',
}

/** Said where the program is wrong, not the text. */
export const broken: NotDrawn = {
  ok: false,
  code: 'broken',
  line: null,
  reason: 'This diagram could not be drawn here, though its text may be right.',
}

export function noKind(text: string): NotDrawn {
  const lines = text.split('\n')
  const at = lines.findIndex((one) => one.trim() !== '' && !one.trim().startsWith('%%'))
  if (at < 0) return { ok: false, code: 'text', line: null, reason: 'There is nothing to draw yet.' }
  const words = quoted(lines[at]!)!
  return {
    ok: false,
    code: 'kind',
    line: at + 1,
    reason: `Line ${at + 1}: ${words} names no kind of diagram that is drawn here, such as flowchart, mindmap or sequenceDiagram.`,
  }
}

/** A mind map has one part in the middle. @param words of the part that would be a second one */
function secondRoot(text: string, words: string): NotDrawn {
  const at = findLastIndex(text.split('\n'), words)
  return {
    ok: false,
    code: 'text',
    line: at < 0 ? null : at + 1,
    reason: `${at < 0 ? '' : `Line ${at + 1}: `}${quoted(words) ?? 'One part'} stands as far left as the middle of the mind map. Only the middle may; indent the others.`,
  }
}

function findLastIndex(lines: readonly string[], words: string): number {
  for (let at = lines.length - 1; at >= 0; at -= 1) if (lines[at]!.includes(words)) return at
  return -1
}

function findPlace(faulty: Faulty, message: string): { line: number; words: string } | null {
  const { hash, result } = faulty
  const parsed = result?.parserErrors?.[0]
  const lexed = result?.lexerErrors?.[0]
  if (lexed && isLine(lexed.line)) return { line: lexed.line, words: '' }
  if (parsed) {
    const line = [parsed.token?.startLine, parsed.previousToken?.startLine].find(isLine)
    if (line !== undefined)
      return { line, words: typeof parsed.token?.image === 'string' ? parsed.token.image : '' }
  }
  const said = /(?:on|at) line:?\s*(\d+)/iu.exec(message)?.[1]
  const line = [said === undefined ? null : Number(said), hash?.loc?.last_line, hash?.loc?.first_line].find(
    isLine,
  )
  if (line === undefined) return null
  return { line, words: typeof hash?.text === 'string' ? hash.text : '' }
}

const isLine = (value: unknown): value is number =>
  typeof value === 'number' && Number.isInteger(value) && value > 0

function lastLineOf(text: string): number {
  return text.trimEnd().split('\n').length
}

const LONGEST_WORDS = 40

function quoted(words: string): string | null {
  const line = words.replace(/\s+/gu, ' ').trim()
  if (line === '') return null
  return `“${line.length > LONGEST_WORDS ? `${line.slice(0, LONGEST_WORDS - 1).trimEnd()}…` : line}”`
}
