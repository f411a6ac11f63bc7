/**
 * Tidying: raw typing into clean Markdown, as a list of edits to take or leave.
 *
 * What holds, whichever edits are taken: every line of a command or of an answer stands in the text as it stood, in the
 * same order; no word is changed. Taking all and tidying again changes nothing. The same text always gives the same
 * edits. Nothing here asks for a clock, chance, a network or a dictionary.
 */
import { maybeTree } from '../../markdown/parse.ts'
import { arrange } from './arrange.ts'
import { applyEdits, replacementsOf, startOfEdit, type Edit, type Replacement } from './edits.ts'
import { fenceRuns } from './fences.ts'
import { linesOf } from './lines.ts'
import { findRuns } from './runs.ts'

export { applyEdits, applyReplacements, replacementsOf, startOfEdit } from './edits.ts'
export type { Edit, EditKind, Replacement } from './edits.ts'

export interface Tidied {
  /** The text with all edits taken. */
  readonly text: string
  /** In the order of the raw text. */
  readonly edits: readonly Edit[]
}

/**
 * What tidying would do to a text, which has `\n` line ends as all texts of a lab. One that has others or a byte order
 * mark, is too long or too deeply nested to be read as Markdown, is left alone, and so is one on which the rules do not come to rest.
 */
export function tidy(text: string): Tidied {
  const once = tidyOnce(text)
  return once.edits.length === 0 || tidyOnce(once.text).edits.length === 0 ? once : { text, edits: [] }
}

/** One pass of all rules; `tidy` is what to call. */
export function tidyOnce(text: string): Tidied {
  if (/[\r\ufeff]/u.test(text) || !maybeTree(text)) return { text, edits: [] }
  const lines = linesOf(text)
  const fences = fenceRuns(text, lines, findRuns(lines).runs)
  const fenced = applyEdits(text, fences)
  const edits = [...fences, ...toRaw(arrange(fenced), fences)].sort((a, b) => startOfEdit(a) - startOfEdit(b))
  return { text: applyEdits(text, edits), edits }
}

/** Edits of the text with fences, in places of the text without. No other edit touches what a fence's edit made. */
function toRaw(edits: readonly Edit[], fences: readonly Edit[]): Edit[] {
  const changed = replacementsOf(fences)
  const place = (at: number): number => {
    let shift = 0
    for (const { from, to, insert } of changed) {
      if (from + shift + insert.length > at) break
      shift += insert.length - (to - from)
    }
    return at - shift
  }
  const toRawPlace = ({ from, to, insert }: Replacement): Replacement => {
    return { from: place(from), to: place(to), insert }
  }
  return edits.map((edit) => ({ ...edit, replacements: edit.replacements.map(toRawPlace) }))
}
