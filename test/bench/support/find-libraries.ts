/** Search libraries behind one door, each as its documentation sets it up for ranked search of any of the words. */
import { create, insertMultiple, load, save, search as searchOrama, update } from '@orama/orama'
import sqlite3InitModule, { type Database, type Sqlite3Static } from '@sqlite.org/sqlite-wasm'
import MiniSearch from 'minisearch'
import { stemmer } from 'stemmer'
import type { FindDocument } from '../../../shared/find/document.ts'
import { emptyIndex, mergeNext, withDocuments, type LabIndex } from '../../../shared/find/index/lab-index.ts'
import { search } from '../../../shared/find/index/search.ts'
import { fromStored, toStored, type StoredHead } from '../../../shared/find/index/stored.ts'
import { learnFrom, placeNext, type LabMeaning } from '../../../shared/find/meaning/lab-meaning.ts'
import { plainQuery } from '../../support/find.ts'

export interface Asked {
  readonly typed: string
  /** The last word is a beginning. */
  readonly isTyping: boolean
  /** Words may be misspelt. */
  readonly isTolerant: boolean
  readonly limit: number
}

export interface SearchLibrary {
  /** Called with some thousand documents at a time. */
  add(documents: readonly FindDocument[]): void
  /** When all are added. */
  finish(): void
  replace(before: FindDocument, after: FindDocument): void
  search(asked: Asked): string[]
  /** What is kept between starts. */
  save(): unknown
  /** Of what was kept: ready to be searched. */
  load(saved: unknown): void
  /** Bytes of what was kept. */
  sizeOf(saved: unknown): number
}

export const libraryNames = ['ours', 'words alone', 'fts5', 'minisearch', 'orama'] as const
export type LibraryName = (typeof libraryNames)[number]

export async function makeLibrary(name: LibraryName): Promise<SearchLibrary> {
  switch (name) {
    case 'ours':
      return new Ours(true)
    case 'words alone':
      return new Ours(false)
    case 'fts5':
      return new Fts5(await sqlite3InitModule())
    case 'minisearch':
      return new MiniSearchLibrary()
    case 'orama':
      return new OramaLibrary()
  }
}

interface OursSaved {
  readonly head: StoredHead
  readonly segments: ReadonlyMap<number, Uint8Array>
  readonly meaning: LabMeaning | null
}

class Ours implements SearchLibrary {
  private index: LabIndex = emptyIndex
  private meaning: LabMeaning | null = null
  constructor(private readonly hasMeaning: boolean) {}

  add(documents: readonly FindDocument[]): void {
    this.index = withDocuments(this.index, { documents, removed: [], sequence: 1 })
    this.tidy(Infinity)
  }

  finish(): void {
    if (this.hasMeaning) this.meaning = learnFrom(this.index)
    this.place()
  }

  replace(_: FindDocument, after: FindDocument): void {
    this.index = withDocuments(this.index, { documents: [after], removed: [], sequence: 2 })
    this.tidy(1 << 20)
    this.place()
  }

  search({ typed, isTyping, limit }: Asked): string[] {
    return search(this.index, plainQuery(typed, isTyping), { limit }, this.meaning).hits.map(({ id }) => id)
  }

  save(): OursSaved {
    const { head, put } = toStored(emptyIndex, this.index)
    return { head, segments: new Map(put.map(({ name, bytes }) => [name, bytes])), meaning: this.meaning }
  }

  load(saved: unknown): void {
    const { head, segments, meaning } = saved as OursSaved
    this.index = fromStored(head, segments)!
    this.meaning = meaning
  }

  sizeOf(saved: unknown): number {
    const { segments, meaning } = saved as OursSaved
    const places = [...(meaning?.places.values() ?? []), ...(meaning ? [meaning.meaning.vectors] : [])]
    return [...segments.values(), ...places].reduce((sum, { byteLength }) => sum + byteLength, 0)
  }

  private tidy(mostBytes: number): void {
    for (let next = mergeNext(this.index, mostBytes); next; next = mergeNext(next, mostBytes))
      this.index = next
  }

  private place(): void {
    for (let next = this.meaning; next; next = placeNext(next, this.index)) this.meaning = next
  }
}

/** SQLite's full-text index with its Porter tokeniser; typing errors through its table of words. */
class Fts5 implements SearchLibrary {
  private db: Database
  /** Its words of letters, by their length. */
  private readonly words = new Map<number, string[]>()
  private all: ReadonlySet<string> = new Set()

  constructor(private readonly sqlite: Sqlite3Static) {
    this.db = new sqlite.oo1.DB(':memory:')
    this.db.exec(
      "create virtual table texts using fts5(id unindexed, title, body, tokenize='porter unicode61', prefix='2 3');" +
        "create virtual table words using fts5vocab(texts, 'row')",
    )
  }

  add(documents: readonly FindDocument[]): void {
    this.db.transaction(() => {
      const insert = this.db.prepare('insert into texts(rowid, id, title, body) values (?, ?, ?, ?)')
      for (const { id, title, technical, text } of documents)
        insert.bind([rowOf(id), id, title, [...technical, text].join('\n')]).stepReset()
      insert.finalize()
    })
  }

  finish(): void {
    this.all = new Set(this.db.selectValues('select term from words') as string[])
    this.words.clear()
    for (const word of this.all) if (/^\p{L}+$/u.test(word)) wordsOfLength(this.words, word.length).push(word)
  }

  replace(_: FindDocument, { id, title, technical, text }: FindDocument): void {
    this.db.exec('update texts set title = ?, body = ? where rowid = ?', {
      bind: [title, [...technical, text].join('\n'), rowOf(id)],
    })
  }

  search({ typed, isTyping, isTolerant, limit }: Asked): string[] {
    const typedWords = typed.match(/[\p{L}\p{N}]+/gu) ?? []
    const parts = typedWords.flatMap((word, at) => {
      const isLast = isTyping && at === typedWords.length - 1
      const others = isTolerant && !isLast ? this.nearTo(word.toLowerCase()) : []
      return [`"${word}"${isLast ? '*' : ''}`, ...others.map((other) => `"${other}"`)]
    })
    if (parts.length === 0) return []
    return this.db.selectValues('select id from texts where texts match ? order by rank limit ?', [
      parts.join(' OR '),
      limit,
    ]) as string[]
  }

  save(): Uint8Array {
    return this.sqlite.capi.sqlite3_js_db_export(this.db)
  }

  load(saved: unknown): void {
    const { capi, wasm } = this.sqlite
    const bytes = saved as Uint8Array
    const db = new this.sqlite.oo1.DB()
    const flags = capi.SQLITE_DESERIALIZE_FREEONCLOSE | capi.SQLITE_DESERIALIZE_RESIZEABLE
    capi.sqlite3_deserialize(
      db.pointer!,
      'main',
      wasm.allocFromTypedArray(bytes),
      bytes.length,
      bytes.length,
      flags,
    )
    this.db.close()
    this.db = db
    this.finish()
  }

  sizeOf(saved: unknown): number {
    return (saved as Uint8Array).length
  }

  /** Words one letter away, or two from eight letters on; none where the word itself is one. */
  private nearTo(typed: string): string[] {
    // Its table holds stems.
    const word = stemmer(typed)
    const most = word.length < 4 ? 0 : word.length < 8 ? 1 : 2
    if (most === 0 || this.all.has(word)) return []
    const lengths = Array.from({ length: 2 * most + 1 }, (_, at) => word.length - most + at)
    const near = lengths
      .flatMap((length) => this.words.get(length) ?? [])
      .map((other) => ({ other, distance: distanceOf(word, other, most) }))
      .filter(({ distance }) => distance <= most)
    const nearest = Math.min(...near.map(({ distance }) => distance))
    return near.filter(({ distance }) => distance === nearest).map(({ other }) => other)
  }
}

function wordsOfLength(words: Map<number, string[]>, length: number): string[] {
  const some = words.get(length) ?? []
  words.set(length, some)
  return some
}

function rowOf(id: string): number {
  return Number(id.replace(/\D/g, '')) + 1
}

/** Optimal string alignment, given up where it is beyond `most`. */
function distanceOf(one: string, other: string, most: number): number {
  let [older, old] = [
    new Array<number>(other.length + 1).fill(0),
    Array.from({ length: other.length + 1 }, (_, at) => at),
  ]
  for (let i = 1; i <= one.length; i++) {
    const row = [i]
    let least = i
    for (let j = 1; j <= other.length; j++) {
      let distance = Math.min(
        old[j]! + 1,
        row[j - 1]! + 1,
        old[j - 1]! + (one[i - 1] === other[j - 1] ? 0 : 1),
      )
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1])
        distance = Math.min(distance, older[j - 2]! + 1)
      row.push(distance)
      least = Math.min(least, distance)
    }
    if (least > most) return most + 1
    ;[older, old] = [old, row]
  }
  return old[other.length]!
}

class MiniSearchLibrary implements SearchLibrary {
  private library = this.made()

  private made(): MiniSearch<FindDocument> {
    return new MiniSearch<FindDocument>(this.options)
  }

  private get options() {
    return { fields: ['title', 'technical', 'text'] }
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
    this.library = MiniSearch.loadJSON(saved as string, this.options)
  }

  sizeOf(saved: unknown): number {
    return Buffer.byteLength(saved as string)
  }
}

class OramaLibrary implements SearchLibrary {
  private db = this.made()

  private made() {
    return create({
      schema: { id: 'string', title: 'string', technical: 'string[]', text: 'string' } as const,
    })
  }

  add(documents: readonly FindDocument[]): void {
    void insertMultiple(this.db, documents.map(oramaDocument), documents.length + 1)
  }

  finish(): void {
    // It is ready as it is.
  }

  replace(before: FindDocument, after: FindDocument): void {
    void update(this.db, before.id, oramaDocument(after))
  }

  search({ typed, isTolerant, limit }: Asked): string[] {
    const found = searchOrama(this.db, {
      term: typed,
      limit,
      properties: ['title', 'technical', 'text'],
      ...(isTolerant ? { tolerance: 1 } : {}),
    })
    if (found instanceof Promise) throw new Error('it answers at once without plugins')
    return found.hits.map(({ id }) => id)
  }

  save(): string {
    return JSON.stringify(save(this.db))
  }

  load(saved: unknown): void {
    this.db = this.made()
    load(this.db, JSON.parse(saved as string) as ReturnType<typeof save>)
  }

  sizeOf(saved: unknown): number {
    return Buffer.byteLength(saved as string)
  }
}

function oramaDocument({ id, title, technical, text }: FindDocument) {
  return { id, title, technical: [...technical], text }
}
