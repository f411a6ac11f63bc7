import {
  create,
  insertMultiple,
  load,
  save,
  search as searchOrama,
  update,
  type Orama,
  type Tokenizer,
} from '@orama/orama'
import type { FindDocument } from '../../../shared/find/document.ts'
import type { Asked, SearchLibrary } from './find-libraries.ts'
import { askedWords, indexedWords, ourBm25 } from './find-words.ts'

const fields = { id: 'string', title: 'string', technical: 'string[]', text: 'string' } as const

/** As it comes: each word of a query also finds the longer ones that begin with it. */
export class OramaLibrary implements SearchLibrary {
  private db = create({ schema: fields })

  add(documents: readonly FindDocument[]): void {
    void insertMultiple(this.db, documents.map(toRecord), documents.length + 1)
  }

  finish(): void {
    // It is ready as it is.
  }

  replace(before: FindDocument, after: FindDocument): void {
    void update(this.db, before.id, toRecord(after))
  }

  search({ typed, isTolerant, limit }: Asked): string[] {
    const properties: ('title' | 'technical' | 'text')[] = ['title', 'technical', 'text']
    const found = searchOrama(this.db, { term: typed, limit, properties, ...toleranceOf(isTolerant) })
    return idsOf(found)
  }

  save(): string {
    return JSON.stringify(save(this.db))
  }

  load(saved: unknown): void {
    this.db = create({ schema: fields })
    load(this.db, parsed(saved))
  }

  sizeOf(saved: unknown): number {
    return Buffer.byteLength(saved as string)
  }
}

/** What no word holds: behind each, so that only beginnings that are asked for find longer ones. */
const END = '\u0002'
const words = { id: 'string', words: 'string' } as const

/**
 * With our words. It takes a word's share of a text for how often it stands there, so that k1 is given in that unit and a text's
 * length is already divided by: b is 0.
 */
export class OramaOfOurWords implements SearchLibrary {
  private db = this.made()
  private documents = 0
  private words = 0

  private made(): Orama<typeof words> {
    const tokenizer: Tokenizer = {
      language: 'english',
      normalizationCache: new Map(),
      tokenize: (text) => text.split('\n'),
    }
    return create({ schema: words, components: { tokenizer } })
  }

  add(documents: readonly FindDocument[]): void {
    const records = documents.map((document) => toRecordOf(document.id, indexedWords(document)))
    void insertMultiple(this.db, records, records.length + 1)
    this.documents += documents.length
    for (const document of documents) this.words += indexedWords(document).length
  }

  finish(): void {
    // It is ready as it is.
  }

  replace(before: FindDocument, after: FindDocument): void {
    void update(this.db, before.id, toRecordOf(after.id, indexedWords(after)))
  }

  search({ typed, isTyping, isTolerant, limit }: Asked): string[] {
    const term = askedWords(typed, isTyping)
      .map(({ word, isBeginning }) => (isBeginning ? word : word + END))
      .join('\n')
    const relevance = { k: (ourBm25.k * this.documents) / this.words, b: 0, d: 0 }
    const asked = { term, limit, properties: ['words' as const], relevance }
    return idsOf(searchOrama(this.db, { ...asked, ...toleranceOf(isTolerant) }))
  }

  save(): string {
    return JSON.stringify(save(this.db))
  }

  load(saved: unknown): void {
    this.db = this.made()
    load(this.db, parsed(saved))
  }

  sizeOf(saved: unknown): number {
    return Buffer.byteLength(saved as string)
  }
}

/** It has one tolerance for all words; with 2 a query takes seconds. */
function toleranceOf(isTolerant: boolean): { readonly tolerance?: number } {
  return isTolerant ? { tolerance: 1 } : {}
}

function parsed(saved: unknown): ReturnType<typeof save> {
  return JSON.parse(saved as string) as ReturnType<typeof save>
}

function idsOf(found: { readonly hits: readonly { readonly id: string }[] } | Promise<unknown>): string[] {
  if (found instanceof Promise) throw new Error('it answers at once without plugins')
  return found.hits.map(({ id }) => id)
}

function toRecord({ id, title, technical, text }: FindDocument) {
  return { id, title, technical: [...technical], text }
}

function toRecordOf(id: string, given: readonly string[]) {
  return { id, words: given.map((word) => word + END).join('\n') }
}
