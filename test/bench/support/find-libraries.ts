/**
 * Search libraries behind one door: each as its documentation sets it up for ranked search of any of the words, and once more
 * with our words and our constants, as far as it has them to set.
 */
import sqlite3InitModule from '@sqlite.org/sqlite-wasm'
import type { FindDocument } from '../../../shared/find/document.ts'
import { Fts5, fts5SetUps } from './find-fts5.ts'
import { MiniSearchLibrary, MiniSearchOfOurWords } from './find-minisearch.ts'
import { OramaLibrary, OramaOfOurWords } from './find-orama.ts'
import { Ours } from './find-ours.ts'

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

export const libraryNames = [
  'ours',
  'with meaning',
  'fts5',
  'fts5 all words',
  'fts5 our words',
  'minisearch',
  'minisearch our words',
  'orama',
  'orama our words',
] as const
export type LibraryName = (typeof libraryNames)[number]

export async function makeLibrary(name: LibraryName): Promise<SearchLibrary> {
  switch (name) {
    case 'ours':
      return new Ours(false)
    case 'with meaning':
      return new Ours(true)
    case 'fts5':
      return new Fts5(await sqlite3InitModule(), fts5SetUps['as it comes'])
    case 'fts5 all words':
      return new Fts5(await sqlite3InitModule(), fts5SetUps['all words'])
    case 'fts5 our words':
      return new Fts5(await sqlite3InitModule(), fts5SetUps['our words'])
    case 'minisearch':
      return new MiniSearchLibrary()
    case 'minisearch our words':
      return new MiniSearchOfOurWords()
    case 'orama':
      return new OramaLibrary()
    case 'orama our words':
      return new OramaOfOurWords()
  }
}
