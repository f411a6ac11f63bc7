/** How words are made equal that differ in writing only. */
import { stemmer } from 'stemmer'

/** Letters that Unicode does not take apart into a letter and a mark. */
const single: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
}
const singles = new RegExp(`[${Object.keys(single).join('')}]`, 'g')
const plain = /^[\x21-\x7e]*$/

/**
 * Compatibility forms as one (NFKC), without the marks that Latin, Greek and Cyrillic letters bear, typographic
 * apostrophes and hyphens as plain ones. Keeps capitals: they say where a word like `NetworkManager` is put together.
 */
export function withoutMarks(word: string): string {
  if (plain.test(word)) return word
  return word
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .normalize('NFKC')
    .replace(/[’ʼ]/g, "'")
    .replace(/[‐‑‒–]/g, '-')
}

/** In lower case; of a word that is without marks already. */
export function toLower(word: string): string {
  const lower = word.toLowerCase()
  return plain.test(lower) ? lower : lower.replace(singles, (letter) => single[letter]!)
}

/** A word as it is compared: without marks, in lower case. */
export function fold(word: string): string {
  return toLower(withoutMarks(word))
}

/** Only words of plain letters have a stem; a technical word is what it is. */
const hasStem = /^[a-z]{3,}$/

/** The stem of a folded word (Porter: An algorithm for suffix stripping, 1980); null for one that has none. */
export function maybeStem(form: string): string | null {
  return hasStem.test(form) ? stemmer(form) : null
}
