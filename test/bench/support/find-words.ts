/**
 * The words that our index holds, for libraries that take words as they are given: so their ranking becomes as near to ours as
 * their formula lets it. A word of a field that counts three times is given three times.
 */
import { findFields, fieldWeights, type FindDocument } from '../../../shared/find/document.ts'
import { toAskedTerms } from '../../../shared/find/index/asked.ts'
import { maybeStem } from '../../../shared/find/index/fold.ts'
import { toWordForms } from '../../../shared/find/index/forms.ts'
import { toWords } from '../../../shared/find/tokens.ts'
import { plainQuery } from '../../support/find.ts'

/** k1 and b of our ranking; d of BM25+, which we do not use. */
export const ourBm25 = { k: 0.9, b: 0.4, d: 0 }

/** Stems of words that have one, other words and their parts as they are. */
export function indexedWords({ title, technical, tags, text }: FindDocument): string[] {
  const parts = { title: [title], technical, tags, text: [text] }
  return findFields.flatMap((field) => {
    const words = parts[field].flatMap(wordsOf)
    return Array.from({ length: fieldWeights[field] }, () => words).flat()
  })
}

const known = new Map<string, readonly string[]>()

function wordsOf(text: string): string[] {
  return toWords(text).flatMap(({ written }) => {
    let words = known.get(written)
    if (!words)
      known.set(written, (words = toWordForms(written).forms.map(({ form }) => maybeStem(form) ?? form)))
    return words
  })
}

export interface AskedWord {
  readonly word: string
  readonly isBeginning: boolean
  readonly mostWrong: 0 | 1 | 2
}

/** What our query looks for, as often as it stands there, without stop words. A beginning is no word and has no stem. */
export function askedWords(typed: string, isTyping: boolean): AskedWord[] {
  return toAskedTerms(plainQuery(typed, isTyping)).flatMap(
    ({ form, stem, isBeginning, mostWrong, times }) => {
      const word = { word: isBeginning ? form : (stem ?? form), isBeginning, mostWrong }
      return Array.from({ length: times }, () => word)
    },
  )
}
