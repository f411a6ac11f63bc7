/** The signs at the head of a line that make it an item or a heading, or that people type for the same. */

/** What Markdown knows as a heading, and what only lacks the blank. */
export const headingSigns = /^ {0,3}(#{1,6})(?=[ \t]|$)|^ {0,3}(#{2,6})(?=\p{Lu}\p{L})/u

export function isHeading(text: string): boolean {
  return headingSigns.test(text)
}

/** An item as Markdown knows it. Only a list that begins with 1 may begin below a text without an empty line. */
const known = /^ {0,3}(?:[-+*]|1[.)])[ \t]+\S/u

export function isItem(text: string): boolean {
  return known.test(text) || maybeTyped(text) !== null
}

/** An item that Markdown does not know as one. */
export interface TypedItem {
  readonly kind: 'bullet' | 'dash' | 'box' | 'letter' | 'number'
  /** How far the sign reaches in the line, the blanks behind it included. */
  readonly to: number
  /** Where it begins, behind the indent. */
  readonly from: number
  /** Of a box, whether it is ticked; of a letter or number, which one. */
  readonly value: number
}

const bullet = /^(\s*)[•◦‣▪]\s*(?=\S)/u
const dash = /^(\s*)[–—]\s+(?=\S)/u
const box = /^(\s*)(?:[-+*](?=\[))?(?:(\[[ xX]?\])|([☐☑☒]))\s+(?=\S)/u
const letter = /^(\s*)([a-z])[.)]\s+(?=\S)/u

/** A number goes on with a list only; below a text it is a part of it. */
const number = /^(\s*)(\d{1,9})[.)][ \t]+(?=\S)/u
/** What would be read as something else once the sign before it were one of Markdown's. */
const nested = /^(?:[-+*•◦‣▪–—☐☑☒>#=|<]|\d{1,9}[.)]|[a-z][.)](?:\s|$)|`{3}|~{3}|\[\])/u

/** Reads the sign at the head of a line; null where there is none that Markdown would not know by itself. */
export function maybeTyped(text: string): TypedItem | null {
  const item = typedHere(text)
  return item && nested.test(text.slice(item.to)) ? null : item
}

/** Reads a number at the head of a line. */
export function maybeNumbered(text: string): TypedItem | null {
  const match = number.exec(text)
  if (!match || nested.test(text.slice(match[0].length))) return null
  return { kind: 'number', from: match[1]!.length, to: match[0].length, value: Number(match[2]) }
}

function typedHere(text: string): TypedItem | null {
  const found = (kind: TypedItem['kind'], match: RegExpExecArray, value = 0): TypedItem => {
    return { kind, from: match[1]!.length, to: match[0].length, value }
  }
  const b = bullet.exec(text)
  if (b) return found('bullet', b)
  const d = dash.exec(text)
  if (d) return found('dash', d)
  const x = box.exec(text)
  if (x) return found('box', x, /x|X|☑|☒/u.test(x[2] ?? x[3]!) ? 1 : 0)
  const l = letter.exec(text)
  return l ? found('letter', l, l[2]!.charCodeAt(0) - 96) : null
}
