/**
 * BM25 as it is written down, document by document and word by word, to hold the index against: no postings, no segments. It
 * shares with the index how a text is split into words.
 */
import { findFields, fieldWeights, type FindDocument } from '../../shared/find/document.ts'
import { maybeStem } from '../../shared/find/index/fold.ts'
import { toQueryForms, toWordForms } from '../../shared/find/index/forms.ts'
import { toWords } from '../../shared/find/tokens.ts'

export class PlainRanking {
  private readonly bags: readonly { readonly id: string; readonly words: readonly string[] }[]

  constructor(documents: readonly FindDocument[]) {
    this.bags = documents.map((document) => ({ id: document.id, words: wordsOf(document) }))
  }

  /** Documents that hold any of the words, best first, equal ones by id. */
  rank(typed: string): { readonly id: string; readonly score: number }[] {
    const asked = toWords(typed).flatMap(({ written }) => toQueryForms(written).map(key))
    const mean = this.bags.reduce((sum, { words }) => sum + words.length, 0) / this.bags.length
    return this.bags
      .map(({ id, words }) => ({
        id,
        score: asked.reduce((sum, word) => sum + this.scoreOf(word, words, mean), 0),
      }))
      .filter(({ score }) => score > 0)
      .sort((one, other) => other.score - one.score || (one.id < other.id ? -1 : 1))
  }

  private scoreOf(word: string, words: readonly string[], mean: number): number {
    const often = words.filter((other) => other === word).length
    const holders = this.bags.filter((bag) => bag.words.includes(word)).length
    const idf = Math.log(1 + (this.bags.length - holders + 0.5) / (holders + 0.5))
    return (idf * often) / (often + 0.9 * (1 - 0.4 + (0.4 * words.length) / mean))
  }
}

function wordsOf({ title, technical, tags, text }: FindDocument): string[] {
  const parts = { title: [title], technical, tags, text: [text] }
  return findFields.flatMap((field) =>
    parts[field].flatMap((part) =>
      toWords(part).flatMap(({ written }) =>
        toWordForms(written).forms.flatMap(({ form }) =>
          Array.from({ length: fieldWeights[field] }, () => key(form)),
        ),
      ),
    ),
  )
}

function key(form: string): string {
  return maybeStem(form) ?? form
}
