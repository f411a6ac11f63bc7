/**
 * What changed between two texts: line by line, and word by word within the lines that changed. By the algorithm of
 * Myers ("An O(ND) Difference Algorithm and Its Variations", 1986), as a library has it, within limits that do not
 * depend on the clock, so that the same texts always give the same answer.
 */
import { diffArrays } from 'diff'

/** Words that both texts have, or only the older, or only the newer one. */
export interface DifferenceRun {
  readonly fate: 'kept' | 'gone' | 'come'
  readonly text: string
}

export type DifferenceBlock =
  /** Whole lines that stand in both. */
  | { readonly kind: 'kept'; readonly text: string; readonly lines: number }
  /** Lines that changed. `isByLines`: too much changed to compare word by word, so the lines stand against each other. */
  | { readonly kind: 'changed'; readonly runs: readonly DifferenceRun[]; readonly isByLines: boolean }

export interface Difference {
  readonly blocks: readonly DifferenceBlock[]
  /** How many places changed. */
  readonly changes: number
  /** The lines themselves could not be compared within the limits: all between the first and the last change stands as one. */
  readonly isCoarse: boolean
}

export interface DifferenceLimits {
  /** Lines that may be gone or come in all. Time grows with the square of this. */
  readonly lineEdits: number
  /** Words that may be gone or come within one place. */
  readonly wordEdits: number
  /** Words that are looked at in all. */
  readonly words: number
}

/** What takes a laptop no more than two or three seconds. */
export const usualLimits: DifferenceLimits = { lineEdits: 5000, wordEdits: 1200, words: 300_000 }

/** Compares two texts. Equal ones have no changes. Kept and gone runs together are the older text, kept and come ones the newer. */
export function compareTexts(older: string, newer: string, limits = usualLimits): Difference {
  const [a, b] = [linesOf(older), linesOf(newer)]
  const parts = diffArrays(a, b, { maxEditLength: limits.lineEdits })
  const hunks = parts ? toHunks(parts) : coarseHunks(a, b)
  const budget = { words: limits.words }
  const blocks = hunks.flatMap((hunk): DifferenceBlock[] => toBlocks(hunk, limits, budget))
  return {
    blocks,
    changes: blocks.filter(({ kind }) => kind === 'changed').length,
    isCoarse: !parts,
  }
}

/** The text before or after, put together from a difference. */
export function textOf({ blocks }: Pick<Difference, 'blocks'>, side: 'older' | 'newer'): string {
  const other = side === 'older' ? 'come' : 'gone'
  return blocks
    .map((block) =>
      block.kind === 'kept'
        ? block.text
        : block.runs
            .filter(({ fate }) => fate !== other)
            .map(({ text }) => text)
            .join(''),
    )
    .join('')
}

export type ShownBlock =
  | DifferenceBlock
  /** A long stretch that did not change, to be unfolded. */
  | { readonly kind: 'folded'; readonly text: string; readonly lines: number }

/** Lines that stay beside a change so that it can be placed. */
const CONTEXT = 3
/** Fewer lines than this are not worth folding. */
const LEAST_FOLDED = 4

/** The blocks as they are shown: of long unchanged stretches only the lines beside a change. */
export function foldKept(blocks: readonly DifferenceBlock[]): ShownBlock[] {
  return blocks.flatMap((block, at): ShownBlock[] => {
    if (block.kind === 'changed') return [block]
    const head = at === 0 ? 0 : CONTEXT
    const tail = at === blocks.length - 1 ? 0 : CONTEXT
    const lines = linesOf(block.text)
    const folded = lines.length - head - tail
    if (folded < LEAST_FOLDED) return [block]
    return [
      ...keptOf(lines.slice(0, head)),
      { kind: 'folded', text: lines.slice(head, head + folded).join(''), lines: folded },
      ...keptOf(lines.slice(head + folded)),
    ]
  })
}

/** Lines with their line ends; together they are the text. */
function linesOf(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? []
}

function keptOf(lines: readonly string[]): { kind: 'kept'; text: string; lines: number }[] {
  return lines.length === 0 ? [] : [{ kind: 'kept', text: lines.join(''), lines: lines.length }]
}

/** Lines that stand in both, or those that are gone with those that came in their place. */
type Hunk =
  | { readonly isKept: true; readonly lines: readonly string[] }
  | { readonly isKept: false; readonly gone: readonly string[]; readonly come: readonly string[] }

interface Part {
  readonly added?: boolean
  readonly removed?: boolean
  readonly value: readonly string[]
}

function toHunks(parts: readonly Part[]): Hunk[] {
  const hunks: Hunk[] = []
  for (const { added = false, removed = false, value } of parts) {
    if (value.length === 0) continue
    if (!added && !removed) {
      hunks.push({ isKept: true, lines: value })
      continue
    }
    const last = hunks.at(-1)
    const before = last && !last.isKept ? last : { gone: [], come: [] }
    const next: Hunk = {
      isKept: false,
      gone: removed ? [...before.gone, ...value] : before.gone,
      come: added ? [...before.come, ...value] : before.come,
    }
    if (last && !last.isKept) hunks[hunks.length - 1] = next
    else hunks.push(next)
  }
  return hunks
}

/** All between the first and the last line that differ, as one place. */
function coarseHunks(a: readonly string[], b: readonly string[]): Hunk[] {
  const most = Math.min(a.length, b.length)
  let start = 0
  while (start < most && a[start] === b[start]) start++
  let end = 0
  while (end < most - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++
  const hunks: Hunk[] = [
    { isKept: true, lines: a.slice(0, start) },
    { isKept: false, gone: a.slice(start, a.length - end), come: b.slice(start, b.length - end) },
    { isKept: true, lines: a.slice(a.length - end) },
  ]
  return hunks.filter((hunk) => !hunk.isKept || hunk.lines.length > 0)
}

function toBlocks(hunk: Hunk, limits: DifferenceLimits, budget: { words: number }): DifferenceBlock[] {
  if (hunk.isKept) return keptOf(hunk.lines)
  const [gone, come] = [hunk.gone.join(''), hunk.come.join('')]
  if (gone === '' || come === '') return [{ kind: 'changed', runs: wholeRuns(gone, come), isByLines: false }]
  const [a, b] = [tokensOf(gone), tokensOf(come)]
  budget.words -= a.length + b.length
  const parts = budget.words < 0 ? undefined : diffArrays(a, b, { maxEditLength: limits.wordEdits })
  if (!parts) return [{ kind: 'changed', runs: wholeRuns(gone, come), isByLines: true }]
  const runs = parts.map(({ added, removed, value }): DifferenceRun => {
    return { fate: added ? 'come' : removed ? 'gone' : 'kept', text: value.join('') }
  })
  return [{ kind: 'changed', runs: readableRuns(runs, gone, come), isByLines: false }]
}

function wholeRuns(gone: string, come: string): DifferenceRun[] {
  const runs: DifferenceRun[] = [
    { fate: 'gone', text: gone },
    { fate: 'come', text: come },
  ]
  return runs.filter(({ text }) => text !== '')
}

/** An address that holds a picture is one word, so that its thousands of letters are not compared one by one. */
const token = /data:[^\s)]+|\s+|[\p{L}\p{N}\p{M}_]+|[^\s\p{L}\p{N}\p{M}_]/gu

function tokensOf(text: string): string[] {
  return text.match(token) ?? []
}

/** Below this share of words kept, two wordings have too little in common to be read through each other. */
const LEAST_KEPT = 0.25

const lengthOfWords = (text: string): number => text.replace(/\s+/gu, '').length

/** Words that changed stand together: what is only blank or a sign between two changes goes with them. */
function readableRuns(runs: readonly DifferenceRun[], gone: string, come: string): DifferenceRun[] {
  const kept = runs
    .filter(({ fate }) => fate === 'kept')
    .reduce((sum, { text }) => sum + lengthOfWords(text), 0)
  const most = Math.max(lengthOfWords(gone), lengthOfWords(come))
  if (kept < most * LEAST_KEPT) return wholeRuns(gone, come)
  const joined: DifferenceRun[] = []
  let place = { gone: '', come: '' }
  const close = (): void => {
    joined.push(...wholeRuns(place.gone, place.come))
    place = { gone: '', come: '' }
  }
  runs.forEach(({ fate, text }, at) => {
    if (fate !== 'kept') place[fate] += text
    else if (at > 0 && at < runs.length - 1 && /^[^\S\n]+$/u.test(text)) {
      place.gone += text
      place.come += text
    } else {
      close()
      joined.push({ fate, text })
    }
  })
  close()
  return joined
}
