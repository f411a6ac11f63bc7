/**
 * A wording beside a text by the shortest edit script (E. W. Myers, "An O(ND) difference algorithm and its variations",
 * 1986; package `diff`): reaches over what was put in between, however long, but also catches the like of a word
 * wherever it stands. So it is taken twice: as it is, and without runs that are shorter than the gaps around them.
 */
import { diffArrays } from 'diff'
import { none, type Alignment } from './align.ts'
import type { Token } from './tokens.ts'

/** Above so many tokens put in and taken out it is given up. */
const MOST_EDITS = 4000

/** Tokens that are the same in both, one behind the other. */
interface Run {
  readonly row: number
  readonly column: number
  readonly count: number
}

/** Both alignments; none where the two have too little in common. */
export function alignByEditScript(wording: readonly Token[], text: readonly Token[]): Alignment[] {
  const runs = runsOf(wording, text)
  if (runs === null) return []
  const spans = (run: Run): Span => ({ run, ...spanOf(run, wording, text) })
  return [runs, withoutStrays(runs.map(spans)).map(({ run }) => run)].map((kept) => {
    const same = new Int32Array(wording.length).fill(none)
    for (const { row, column, count } of kept) for (let i = 0; i < count; i++) same[row + i] = column + i
    return { same, place: same }
  })
}

function runsOf(wording: readonly Token[], text: readonly Token[]): Run[] | null {
  const keys = (tokens: readonly Token[]): string[] => tokens.map(({ key }) => key)
  const parts = diffArrays(keys(wording), keys(text), { maxEditLength: MOST_EDITS })
  if (parts === undefined) return null
  const runs: Run[] = []
  let [row, column] = [0, 0]
  for (const { added, removed, value } of parts) {
    const count = value.length
    if (!added && !removed) runs.push({ row, column, count })
    if (!added) row += count
    if (!removed) column += count
  }
  return runs
}

interface Span {
  readonly run: Run
  /** Code units from where to where, in the wording and in the text. */
  readonly from: { readonly start: number; readonly end: number }
  readonly to: { readonly start: number; readonly end: number }
}

function spanOf({ row, column, count }: Run, wording: readonly Token[], text: readonly Token[]) {
  return {
    from: { start: wording[row]!.start, end: wording[row + count - 1]!.end },
    to: { start: text[column]!.start, end: text[column + count - 1]!.end },
  }
}

/** Without runs that are no longer than the gaps around them, until none is left: they stand by chance. */
function withoutStrays(spans: readonly Span[]): readonly Span[] {
  const kept = spans.filter((span, i) => {
    const gap = Math.min(gapBetween(spans[i - 1], span), gapBetween(span, spans[i + 1]))
    return gap === Infinity || span.from.end - span.from.start > gap
  })
  return kept.length === spans.length ? kept : withoutStrays(kept)
}

function gapBetween(a: Span | undefined, b: Span | undefined): number {
  if (!a || !b) return Infinity
  return Math.max(b.from.start - a.from.end, b.to.start - a.to.end)
}
