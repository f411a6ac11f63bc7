/** A text as the alignment reads it: words and signs, each with a number, without the blanks between them. */

/** Words and signs in order, side by side in arrays, since there may be hundreds of thousands. */
export interface Wording {
  /** Equal tokens have equal numbers, from 1 on, in both texts. */
  readonly ids: Int32Array
  /** Places in the text, UTF-16 code units. */
  readonly starts: Int32Array
  readonly ends: Int32Array
  /** What each counts for where it stands: a word its length, a run of one sign two at most. */
  readonly weights: Int32Array
  /** What begins with each token: a paragraph (or the text), a line, or neither. */
  readonly breaks: Uint8Array
}

export const breakBefore = { none: 0, line: 1, paragraph: 2 } as const
const MOST_SIGN_WEIGHT = 2

/** Both texts, numbered alike. */
export function wordingsOf(older: string, newer: string): readonly [Wording, Wording] {
  const numbers = new Map<string, number>()
  return [wordingOf(older, numbers), wordingOf(newer, numbers)]
}

function wordingOf(text: string, numbers: Map<string, number>): Wording {
  const [ids, starts, ends, weights, breaks]: number[][] = [[], [], [], [], []]
  let at = 0
  // Letters and digits in a row, or one sign in a row.
  for (const { index, 0: words, 1: sign } of text.matchAll(/[\p{L}\p{N}]+|([^\p{L}\p{N}\s])\1*/gu)) {
    ids!.push(numberOf(words, numbers))
    starts!.push(index)
    breaks!.push(at === 0 ? breakBefore.paragraph : breakIn(text, at, index))
    at = index + words.length
    ends!.push(at)
    weights!.push(sign === undefined ? words.length : Math.min(words.length, MOST_SIGN_WEIGHT))
  }
  return {
    ids: Int32Array.from(ids!),
    starts: Int32Array.from(starts!),
    ends: Int32Array.from(ends!),
    weights: Int32Array.from(weights!),
    breaks: Uint8Array.from(breaks!),
  }
}

function breakIn(text: string, start: number, end: number): number {
  let lines = 0
  for (let i = start; i < end && lines < breakBefore.paragraph; i++) if (text[i] === '\n') lines++
  return lines
}

function numberOf(words: string, numbers: Map<string, number>): number {
  const number = numbers.get(words) ?? numbers.size + 1
  if (number > numbers.size) numbers.set(words, number)
  return number
}

/** Index of the first token that ends behind a place; their number where none does. */
export function tokenAt(ends: Int32Array, place: number): number {
  let [low, high] = [0, ends.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (ends[middle]! > place) high = middle
    else low = middle + 1
  }
  return low
}
