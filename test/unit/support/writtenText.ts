/**
 * The oracle of moved words: every character has a number of its own from when it is typed, and keeps it from text to text.
 * Its stay in one text has a number too: a link leads to the characters that stood in its text, so one that left and comes
 * back by another text comes as a new one, and the link that came along with it leads there. Undo brings the stay back.
 * The oracle is told what a person does, and nothing of revisions, change sets, identities or links.
 */
export interface Numbered {
  readonly unit: string
  readonly number: number
  readonly stay: number
}
interface Stretch {
  readonly start: number
  readonly end: number
}
export type NumberedText = readonly Numbered[]

export class Writer {
  private last = 0

  type(words: string): NumberedText {
    return words.split('').map((unit) => ({ unit, number: ++this.last, stay: ++this.last }))
  }

  /** The characters as they come into another text, or a second time into their own. */
  arrive(words: NumberedText): NumberedText {
    return words.map((one) => ({ ...one, stay: ++this.last }))
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
function hullIn(text: NumberedText, stays: ReadonlySet<number>): Stretch | null {
  const at = text.flatMap(({ stay }, i) => (stays.has(stay) ? [i] : []))
  return at.length === 0 ? null : { start: at[0]!, end: at.at(-1)! + 1 }
}

/** Everywhere that words stand in a text. */
export function occurrencesIn(text: NumberedText, words: string): Stretch[] {
  const read = readText(text)
  return text.flatMap((_, start) =>
    words !== '' && read.startsWith(words, start) ? [{ start, end: start + words.length }] : [],
  )
}

/**
 * Where the words of a link stand whose characters are left: from the first to the last of them. Where these do not read as
 * the words do and the words stand across some of them, since a character was deleted and typed again, it is there; nearest
 * to the first character where it is so twice.
 */
export function placeIn(text: NumberedText, wanted: NumberedText, exact: string): Stretch | null {
  const stays = new Set(wanted.map(({ stay }) => stay))
  const hull = hullIn(text, stays)
  if (!hull || readText(text.slice(hull.start, hull.end)) === exact) return hull
  const distance = ({ start }: Stretch): number => Math.abs(start - hull.start)
  const [nearest] = occurrencesIn(text, exact)
    .filter(({ start, end }) => text.slice(start, end).some(({ stay }) => stays.has(stay)))
    .sort((a, b) => distance(a) - distance(b))
  return nearest ?? hull
}
