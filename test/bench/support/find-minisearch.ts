import MiniSearch, { type Options } from 'minisearch'
import type { FindDocument } from '../../../shared/find/document.ts'
import type { Asked, SearchLibrary } from './find-libraries.ts'
import { askedWords, indexedWords, ourBm25 } from './find-words.ts'

/** As it comes. */
export class MiniSearchLibrary implements SearchLibrary {
  protected readonly options: Options<FindDocument> = { fields: ['title', 'technical', 'text'] }
  private made: MiniSearch<FindDocument> | undefined

  protected get library(): MiniSearch<FindDocument> {
    return (this.made ??= new MiniSearch(this.options))
  }

  add(documents: readonly FindDocument[]): void {
    this.library.addAll(documents)
  }

  finish(): void {
    // It is ready as it is.
  }

  replace(before: FindDocument, after: FindDocument): void {
    this.library.remove(before)
    this.library.add(after)
  }

  search({ typed, isTyping, isTolerant, limit }: Asked): string[] {
    const hits = this.library.search(typed, {
      prefix: (_, at, terms) => isTyping && at === terms.length - 1,
      fuzzy: (term) => (!isTolerant || term.length < 4 ? false : term.length < 8 ? 1 : 2),
    })
    return hits.slice(0, limit).map(({ id }) => id as string)
  }

  save(): string {
    return JSON.stringify(this.library)
  }

  load(saved: unknown): void {
    this.made = MiniSearch.loadJSON(saved as string, this.options)
  }

  sizeOf(saved: unknown): number {
    return Buffer.byteLength(saved as string)
  }
}

/** With our words and our constants. It takes a text's length to be the number of its different words. */
export class MiniSearchOfOurWords extends MiniSearchLibrary {
  protected override readonly options: Options<FindDocument> = {
    fields: ['words'],
    extractField: (document, field) => (field === 'id' ? document.id : indexedWords(document).join('\n')),
    tokenize: (text) => text.split('\n'),
    processTerm: (term) => term,
  }

  override search({ typed, isTyping, isTolerant, limit }: Asked): string[] {
    const asked = askedWords(typed, isTyping)
    const hits = this.library.search(asked.map(({ word }) => word).join('\n'), {
      bm25: ourBm25,
      prefix: (_, at) => asked[at]!.isBeginning,
      fuzzy: (_, at) => isTolerant && asked[at]!.mostWrong,
      weights: { prefix: 0.8, fuzzy: 0.5 },
    })
    // It multiplies a sum by how many of the words were found, which BM25 does not.
    const scored = hits.map(({ id, score, queryTerms }) => ({
      id: id as string,
      score: score / queryTerms.length,
    }))
    scored.sort((one, other) => other.score - one.score)
    return scored.slice(0, limit).map(({ id }) => id)
  }
}
