/**
 * The oracle of moved words: every character has a number of its own from when it is typed, and keeps it from text to text.
 * It is told what a person does, and nothing of revisions, change sets, identities or links.
 */
export interface Numbered {
  readonly unit: string
  readonly number: number
}
export type NumberedText = readonly Numbered[]

export class Writer {
  private last = 0

  type(words: string): NumberedText {
    return words.split('').map((unit) => ({ unit, number: ++this.last }))
  }
}

export const readText = (text: NumberedText): string => text.map(({ unit }) => unit).join('')

export const withInsertion = (text: NumberedText, at: number, insert: NumberedText): NumberedText => [
  ...text.slice(0, at),
  ...insert,
  ...text.slice(at),
]

export const without = (text: NumberedText, start: number, end: number): NumberedText => [
  ...text.slice(0, start),
  ...text.slice(end),
]

const isBlank = ({ unit }: Numbered): boolean => /\s/u.test(unit)

/** What stands before a place and behind it, without the blanks at the place. */
export function splitText(text: NumberedText, at: number): [NumberedText, NumberedText] {
  let [end, start] = [at, at]
  while (end > 0 && isBlank(text[end - 1]!)) end -= 1
  while (start < text.length && isBlank(text[start]!)) start += 1
  return [text.slice(0, end), text.slice(start)]
}

/** From the first to the last of these characters that stand in a text; null where none does. */
export function hullIn(text: NumberedText, wanted: NumberedText): { start: number; end: number } | null {
  const numbers = new Set(wanted.map(({ number }) => number))
  const at = text.flatMap(({ number }, i) => (numbers.has(number) ? [i] : []))
  return at.length === 0 ? null : { start: at[0]!, end: at.at(-1)! + 1 }
}
