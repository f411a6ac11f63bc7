/** The part of nspell 2 that is used here; the package brings no types. */
declare module 'nspell' {
  export interface Speller {
    correct(word: string): boolean
    suggest(word: string): string[]
    add(word: string): Speller
  }
  export default function nspell(aff: string, dic: string): Speller
}
