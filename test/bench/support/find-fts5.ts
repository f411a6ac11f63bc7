import type { Database, Sqlite3Static } from '@sqlite.org/sqlite-wasm'
import { stemmer } from 'stemmer'
import type { FindDocument } from '../../../shared/find/document.ts'
import type { Asked, SearchLibrary } from './find-libraries.ts'
import { askedWords, indexedWords, type AskedWord } from './find-words.ts'

/** How its index and its queries are made. */
interface SetUp {
  readonly tokeniser: string
  /** A text has to hold all words that are asked for. */
  readonly needsAll: boolean
  /** What it is given of a document: two texts. */
  textsOf(document: FindDocument): readonly [title: string, body: string]
  wordsOf(asked: Asked): readonly AskedWord[]
  /** A word as its table of words holds it. */
  kept(word: string): string
}

const asItComes: SetUp = {
  tokeniser: 'porter unicode61',
  needsAll: false,
  textsOf: ({ title, technical, text }) => [title, [...technical, text].join('\n')],
  wordsOf: ({ typed, isTyping }) => {
    const words = typed.match(/[\p{L}\p{N}]+/gu) ?? []
    return words.map((written, at) => {
      const word = written.toLowerCase()
      const isBeginning = isTyping && at === words.length - 1
      return { word, isBeginning, mostWrong: isBeginning || word.length < 4 ? 0 : word.length < 8 ? 1 : 2 }
    })
  },
  kept: stemmer,
}

/** Its k1 = 1.2 and b = .75 cannot be set. */
const ofOurWords: SetUp = {
  ...asItComes,
  tokeniser: "unicode61 remove_diacritics 0 tokenchars '#$%+-./:@\\^_~'",
  textsOf: (document) => ['', indexedWords(document).join('\n')],
  wordsOf: ({ typed, isTyping }) => askedWords(typed, isTyping),
  kept: (word) => word,
}

export const fts5SetUps = {
  'as it comes': asItComes,
  'all words': { ...asItComes, needsAll: true },
  'our words': ofOurWords,
} as const

/** SQLite's full-text index; typing errors through its table of words. */
export class Fts5 implements SearchLibrary {
  private db: Database
  /** Its words of letters, by their length. */
  private readonly words = new Map<number, string[]>()
  private all: ReadonlySet<string> = new Set()

  constructor(
    private readonly sqlite: Sqlite3Static,
    private readonly setUp: SetUp,
  ) {
    this.db = new sqlite.oo1.DB(':memory:')
    this.db.exec(
      `create virtual table texts using fts5(id unindexed, title, body, tokenize="${setUp.tokeniser}", prefix='2 3');` +
        "create virtual table words using fts5vocab(texts, 'row')",
    )
  }

  add(documents: readonly FindDocument[]): void {
    this.db.transaction(() => {
      const insert = this.db.prepare('insert into texts(rowid, id, title, body) values (?, ?, ?, ?)')
      for (const document of documents)
        insert.bind([rowOf(document.id), document.id, ...this.setUp.textsOf(document)]).stepReset()
      insert.finalize()
    })
  }

  finish(): void {
    this.db.exec("insert into texts(texts) values ('optimize')")
    this.readWords()
  }

  replace(_: FindDocument, after: FindDocument): void {
    this.db.exec('update texts set title = ?, body = ? where rowid = ?', {
      bind: [...this.setUp.textsOf(after), rowOf(after.id)],
    })
  }

  search(asked: Asked): string[] {
    const parts = this.setUp.wordsOf(asked).map(({ word, isBeginning, mostWrong }) => {
      const near = asked.isTolerant ? this.nearTo(this.setUp.kept(word), mostWrong) : []
      return `(${[`"${word}"${isBeginning ? '*' : ''}`, ...near.map((other) => `"${other}"`)].join(' OR ')})`
    })
    if (parts.length === 0) return []
    return this.db.selectValues('select id from texts where texts match ? order by rank limit ?', [
      parts.join(this.setUp.needsAll ? ' AND ' : ' OR '),
      asked.limit,
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
    this.readWords()
  }

  sizeOf(saved: unknown): number {
    return (saved as Uint8Array).length
  }

  private readWords(): void {
    this.all = new Set(this.db.selectValues('select term from words') as string[])
    this.words.clear()
    for (const word of this.all) if (/^\p{L}+$/u.test(word)) wordsOfLength(this.words, word.length).push(word)
  }

  /** The nearest words to one, at most so many letters away; none where it stands there itself. */
  private nearTo(word: string, most: number): string[] {
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
