/** Words that are one word in another number, or made from one another. */
import { maybeStem } from '../index/fold.ts'
import type { LabIndex } from '../index/lab-index.ts'

/** So many words of one root are looked for. */
const MOST_OF_ROOT = 6
const endings = /(?:ly|ness|ment|able|ible|er|or|ation|ion|al|y|e)s?$/

/** A word in the singular and in the plural, as far as letters tell. @param form folded */
export function numbersOf(form: string): string[] {
  if (!/^[a-z]{3,}$/.test(form)) return [form]
  return form.endsWith('s') && !form.endsWith('ss') ? [form, form.slice(0, -1)] : [form, `${form}s`]
}

/** What a word is made from, as a key: `nightly` from `night`. Null for a short word and for one that is not of letters alone. */
export function maybeRoot(form: string): string | null {
  if (!/^[a-z]{4,}$/.test(form)) return null
  const bare = form.replace(endings, '')
  return bare.length >= 4 ? (maybeStem(bare) ?? bare) : null
}

/** Other words of the lab that have the same root. */
export function formsOfRoot({ segments }: LabIndex, form: string): string[] {
  const root = maybeRoot(form)
  if (root === null) return []
  const found = segments.flatMap(({ segment: { terms } }) => {
    const [start, end] = terms.range(root)
    return Array.from({ length: end - start }, (_, at) => terms.get(start + at))
  })
  const others = found.filter((other) => other !== form && maybeRoot(other) === root)
  return [...new Set(others)].slice(0, MOST_OF_ROOT)
}
