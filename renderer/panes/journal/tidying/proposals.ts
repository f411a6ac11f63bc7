/** What a tidying panel offers for one text: edits to tick with the lines that they change, and words to spell otherwise. */
import { ChangeSet } from '@codemirror/state'
import { diffArrays } from 'diff'
import { wordsToCheck, type SpelledWord } from '../../../../shared/journal/spelling/words.ts'
import { doubtsOf, type Doubt } from '../../../../shared/journal/tidy/doubts.ts'
import {
  applyReplacements,
  replacementsOf,
  tidy,
  type Edit,
  type Replacement,
} from '../../../../shared/journal/tidy/tidy.ts'
import { toLines } from '../../../../shared/lab/text.ts'

/** A line of a difference, or how many lines between two of them stay as they are. */
export type DiffLine =
  | { readonly fate: 'kept' | 'gone' | 'new'; readonly text: string }
  | { readonly fate: 'folded'; readonly count: number }

export interface Proposal {
  readonly edit: Edit
  readonly lines: readonly DiffLine[]
}

/** Everything that is offered for a text. */
export interface Offer {
  readonly text: string
  readonly proposals: readonly Proposal[]
  /** What was left alone since nobody can tell whose it is. */
  readonly doubts: readonly Doubt[]
  /** The words of its sentences, once commands and outputs are set apart, with their places in the text itself. */
  readonly words: readonly SpelledWord[]
}

export function offerFor(text: string): Offer {
  const tidied = tidy(text)
  return {
    text,
    doubts: doubtsOf(text),
    proposals: tidied.edits.map((edit) => ({ edit, lines: linesOfEdit(text, edit) })),
    words: wordsInSentences(text, tidied.text, tidied.edits),
  }
}

/** So many unchanged lines are shown beside a changed one. */
const BESIDE = 1

/** The lines that an edit reaches, as they were and as they become. */
export function linesOfEdit(text: string, { replacements }: Edit): DiffLine[] {
  const [first, last] = [replacements[0], replacements.at(-1)]
  if (!first || !last) return []
  const from = text.slice(0, first.from).lastIndexOf('\n') + 1
  const end = text.indexOf('\n', last.to)
  const to = end === -1 ? text.length : end
  const before = text.slice(from, to)
  const within = replacements.map((one) => ({ ...one, from: one.from - from, to: one.to - from }))
  const after = applyReplacements(before, within)
  const lines = diffArrays(before.split('\n'), after.split('\n')).flatMap(({ added, removed, value }) =>
    value.map((line) => ({ fate: added ? 'new' : removed ? 'gone' : 'kept', text: line }) as const),
  )
  return folded(lines)
}

/** Long runs of unchanged lines as a number. */
function folded(lines: readonly Exclude<DiffLine, { fate: 'folded' }>[]): DiffLine[] {
  const isNear = lines.map((_, at) =>
    lines.slice(Math.max(0, at - BESIDE), at + BESIDE + 1).some(({ fate }) => fate !== 'kept'),
  )
  const out: DiffLine[] = []
  lines.forEach((line, at) => {
    const last = out.at(-1)
    if (isNear[at]) out.push(line)
    else if (last?.fate === 'folded') out[out.length - 1] = { fate: 'folded', count: last.count + 1 }
    else out.push({ fate: 'folded', count: 1 })
  })
  return out
}

/** Replacements as one change set. */
export function toChanges(replacements: readonly Replacement[], length: number): ChangeSet {
  return ChangeSet.of(
    replacements.map(({ from, to, insert }) => ({ from, to, insert: toLines(insert) })),
    length,
  )
}

/** Read from the tidied text, where no output is taken for sentences, and found again in the raw one. */
function wordsInSentences(text: string, tidied: string, edits: readonly Edit[]): SpelledWord[] {
  const back = toChanges(replacementsOf(edits), text.length).invertedDesc
  return wordsToCheck(tidied).flatMap(({ word, from }) => {
    const raw = back.mapPos(from, 1)
    return text.startsWith(word, raw) ? [{ word, from: raw, to: raw + word.length }] : []
  })
}

/** The replacements of the edits that were taken and of words that are spelt otherwise; a word that an edit reaches stays. */
export function replacementsFor(
  { words }: Offer,
  edits: readonly Edit[],
  spelt: ReadonlyMap<string, string>,
): Replacement[] {
  const taken = replacementsOf(edits)
  const corrected = words.flatMap(({ word, from, to }) => {
    const insert = spelt.get(word)
    const isReached = taken.some((one) => one.from < to && one.to > from)
    return insert === undefined || isReached ? [] : [{ from, to, insert }]
  })
  return replacementsOf([{ replacements: taken }, { replacements: corrected }])
}
