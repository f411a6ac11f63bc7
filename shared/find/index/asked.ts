/** What a query looks for in the index: forms of its words, each with the ways in which it may stand in a text. */
import type { FindQuery, QueryPhrase, QueryWord } from '../query/query.ts'
import { toWords } from '../tokens.ts'
import { fold, maybeStem } from './fold.ts'
import { toQueryForms, toWordForms } from './forms.ts'

export interface AskedTerm {
  /** Folded. */
  readonly form: string
  /** Words with the same stem count as the word itself; null for a form that has none. */
  readonly stem: string | null
  /** Longer words that begin so count as well. */
  readonly isBeginning: boolean
  /** How many letters may be wrong in it. */
  readonly mostWrong: 0 | 1 | 2
  /** How often it stands in the query. */
  times: number
  /** It stands in phrases alone, and is not marked outside of them. */
  isOfPhrase: boolean
}

/** The words of a phrase: whole forms, each with how many places it stands behind the first. */
export type AskedPhrase = readonly { readonly form: string; readonly at: number }[]

/**
 * The words that Lucene's EnglishAnalyzer leaves out, with which the published baselines were made. They stay in the index;
 * a query leaves them out where it has others.
 */
const unsaying: ReadonlySet<string> = new Set(
  (
    'a an and are as at be but by for if in into is it no not of on or such that the their then there these they this to ' +
    'was will with'
  ).split(' '),
)

/** The terms to rank by, in the order typed, each once. Words of phrases are ranked by as well. */
export function toAskedTerms({ words, phrases }: FindQuery): AskedTerm[] {
  const terms = new Map<string, AskedTerm>()
  const all = [
    ...words.flatMap(termsOfWord),
    ...phrases.flatMap(({ written }) =>
      toWords(written).map((word) => ({ ...exactTerm(fold(word.written)), isOfPhrase: true })),
    ),
  ]
  const saying = all.filter(({ form }) => !unsaying.has(form))
  for (const term of saying.length > 0 ? saying : all) {
    const key = `${term.form} ${term.isBeginning}`
    const same = terms.get(key)
    if (same) {
      same.times++
      same.isOfPhrase &&= term.isOfPhrase
    } else terms.set(key, term)
  }
  return [...terms.values()]
}

/** Places lie between two words of a phrase as they do in a text. */
export function toAskedPhrase({ written }: QueryPhrase): AskedPhrase {
  let at = 0
  return toWords(written).map((word) => {
    const { forms, width } = toWordForms(word.written)
    const asked = { form: forms[0]!.form, at }
    at += width
    return asked
  })
}

function termsOfWord({ written, isBeginning }: QueryWord): AskedTerm[] {
  return toWords(written).flatMap((word, at, all) => {
    const [whole, ...parts] = toQueryForms(word.written)
    const isLast = isBeginning && at === all.length - 1
    const mostWrong = parts.length === 0 ? mostWrongIn(whole!) : 0
    return [{ ...exactTerm(whole!), isBeginning: isLast, mostWrong }, ...parts.map(exactTerm)]
  })
}

function exactTerm(form: string): AskedTerm {
  return { form, stem: maybeStem(form), isBeginning: false, mostWrong: 0, times: 1, isOfPhrase: false }
}

/** Only words of letters are ever taken for misspelt: `eth0` and `eth1` are two things. */
function mostWrongIn(form: string): 0 | 1 | 2 {
  if (!/^\p{L}+$/u.test(form) || form.length < 4) return 0
  return form.length < 8 ? 1 : 2
}
