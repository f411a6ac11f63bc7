/**
 * Runs: pieces of rendered text that know which part of the Markdown source they show.
 * A run as long as its source is linear: its n-th character shows the n-th one there.
 * Any other run (an escape, a character reference, a shortened address) stands for its source as a whole.
 */
import type { Code, Html, InlineCode, Text } from 'mdast'
import type { Range } from '../lab/model.ts'
import type { ParsedMarkdown } from './parse.ts'
import { tokensWithin, type TextToken } from './tokens.ts'

/** `text` is shown for `source.slice(from, to)`. UTF-16 code units. */
export interface Run {
  readonly from: number
  readonly to: number
  readonly text: string
}

/** One end of a selection: a place within a run's text, from 0 to `length`. */
export interface RunPoint {
  readonly from: number
  readonly to: number
  /** Code units of the run's rendered text. */
  readonly length: number
  readonly offset: number
}

export type Leaf = Text | InlineCode | Code | Html

/** The runs that show a leaf of the tree, in order; their texts together are its value. */
export function runsOf(parsed: ParsedMarkdown, leaf: Leaf): readonly Run[] {
  const start = leaf.position?.start.offset
  const end = leaf.position?.end.offset
  if (start === undefined || end === undefined || leaf.value === '') return []
  if (parsed.text.slice(start, end) === leaf.value) return [{ from: start, to: end, text: leaf.value }]
  const tokens = tokensWithin(parsed.tokens, start, end).filter((token) => token.type !== unusedTypeIn(leaf))
  return fitTokens(tokens, leaf) ?? [{ from: start, to: end, text: leaf.value }]
}

/** Code blocks hold inline text only in their info string, which is not part of the value. */
function unusedTypeIn(leaf: Leaf): TextToken['type'] | null {
  return leaf.type === 'code' ? 'text' : null
}

/** Walks along the tokens; characters that the tree dropped (a fence's line ends, `\` before a table's pipe) are skipped. */
function fitTokens(tokens: readonly TextToken[], leaf: Leaf): readonly Run[] | undefined {
  const usable = withoutFenceEnding(tokens, leaf)
  const runs: Run[] = []
  let rest = leaf.value
  for (const token of usable) {
    if (rest === '') break
    if (rest.startsWith(token.value)) {
      runs.push({ from: token.from, to: token.to, text: token.value })
      rest = rest.slice(token.value.length)
    } else {
      rest = fitCharacters(token, rest, runs)
    }
  }
  return rest === '' ? joinRuns(runs) : undefined
}

/** mdast's code value leaves out the line ending behind the opening fence. */
function withoutFenceEnding(tokens: readonly TextToken[], leaf: Leaf): readonly TextToken[] {
  const isFenced = leaf.type === 'code' && tokens[0]?.type === 'line ending'
  return isFenced ? tokens.slice(1) : tokens
}

function fitCharacters(token: TextToken, value: string, runs: Run[]): string {
  let rest = value
  const isLinear = token.to - token.from === token.value.length
  for (let i = 0; isLinear && i < token.value.length; i += 1) {
    const shown = token.value[i] === '\n' && rest[0] === ' ' ? ' ' : token.value[i]!
    if (rest[0] !== shown) continue
    runs.push({ from: token.from + i, to: token.from + i + 1, text: shown })
    rest = rest.slice(1)
  }
  return rest
}

const isLinearRun = (run: Run): boolean => run.to - run.from === run.text.length

function joinRuns(runs: readonly Run[]): readonly Run[] {
  const joined: Run[] = []
  for (const run of runs) {
    const last = joined[joined.length - 1]
    if (last && last.to === run.from && isLinearRun(last) && isLinearRun(run))
      joined[joined.length - 1] = { from: last.from, to: run.to, text: last.text + run.text }
    else joined.push(run)
  }
  return joined
}

const isLinearAt = (point: RunPoint): boolean => point.to - point.from === point.length

function startOffset(point: RunPoint): number {
  if (isLinearAt(point)) return point.from + point.offset
  return point.offset >= point.length ? point.to : point.from
}

function endOffset(point: RunPoint): number {
  if (isLinearAt(point)) return point.from + point.offset
  return point.offset <= 0 ? point.from : point.to
}

/**
 * The range of the Markdown source that a selection in its rendered form covers.
 * A run that is not linear is taken whole as soon as the selection touches a character of it.
 * @param start the selection's end that comes first in the rendered text
 * @returns null when nothing is selected
 */
export function sourceRangeOf(start: RunPoint, end: RunPoint): Range | null {
  const range = { start: startOffset(start), end: endOffset(end) }
  return range.start < range.end ? range : null
}
