/**
 * Placeholders of parameters in a text: `⁅host-name⁆`, in square brackets with quill (U+2045 and U+2046). No shell, template or
 * Markdown gives these a meaning, so that a command with a placeholder keeps its words; for emphasis they are punctuation, as
 * any bracket is. A text that holds the sign by chance has it doubled: `⁅⁅` stands for one `⁅`.
 */
import type { Range } from '../../lab/model.ts'

export interface Placeholder extends Range {
  readonly name: string
}

/** Values by the names of their placeholders. */
export type Values = ReadonlyMap<string, string>

/** A run of the text as it stands and what it became. Pieces cover both texts without gaps. */
export interface FilledPiece {
  readonly kind: 'text' | 'placeholder' | 'escape'
  readonly source: Range
  readonly filled: Range
}

export interface Filled {
  readonly text: string
  /** Names of placeholders without a value, each once, in text order. They stand in the text as they were. */
  readonly missing: readonly string[]
  readonly pieces: readonly FilledPiece[]
}

const OPEN = '\u2045'
const CLOSE = '\u2046'
const LONGEST_NAME = 40
const name = new RegExp(`^\\p{L}[\\p{L}\\p{N}_-]{0,${LONGEST_NAME - 1}}$`, 'u')
/** A doubled sign, or a placeholder, whichever comes first from the left. */
const signs = new RegExp(
  `${OPEN}${OPEN}|${OPEN}(\\p{L}[\\p{L}\\p{N}_-]{0,${LONGEST_NAME - 1}})${CLOSE}`,
  'gu',
)

/** A name begins with a letter and has letters, digits, “_” and “-”: no blanks, so that it stays one word of a command. */
export function isPlaceholderName(text: string): boolean {
  return name.test(text)
}

/** A name made of words that a person gave: “New host” becomes “new-host”. Empty where no letter is left. */
export function toPlaceholderName(words: string): string {
  const joined = words
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_]+/gu, '-')
    .replace(/^[^\p{L}]+/u, '')
  return Array.from(joined).slice(0, LONGEST_NAME).join('').replace(/-+$/, '')
}

/** The placeholder of a name. @throws RangeError where it is no name */
export function toPlaceholder(text: string): string {
  if (!isPlaceholderName(text)) throw new RangeError(`${text} is no placeholder's name`)
  return `${OPEN}${text}${CLOSE}`
}

/** The placeholders of a text, in text order. Places are UTF-16 code units. */
export function placeholdersIn(text: string): Placeholder[] {
  return signsIn(text).flatMap((sign) => (sign.name === null ? [] : [{ ...sign, name: sign.name }]))
}

/** Placeholders, and doubled signs with null for their name. */
export function signsIn(text: string): (Range & { readonly name: string | null })[] {
  if (!text.includes(OPEN)) return []
  return Array.from(text.matchAll(signs), (match) => ({
    start: match.index,
    end: match.index + match[0].length,
    name: match[1] ?? null,
  }))
}

/** The text with each opening sign doubled, so that it is read as itself: filling it gives the text back. */
export function escapePlaceholders(text: string): string {
  return text.replaceAll(OPEN, OPEN + OPEN)
}

/** Whether something in a text would be read as a placeholder or as a doubled sign. */
export function needsEscape(text: string): boolean {
  return signsIn(text).length > 0
}

/**
 * The text with a placeholder in the place of each range. A sign that stood alone right before one is doubled, since together
 * they would read as a doubled sign.
 * @param ranges in text order, not overlapping, none beginning or ending within a placeholder or a doubled sign
 * @throws RangeError where they are not
 */
export function putPlaceholder(text: string, ranges: readonly Range[], parameter: string): string {
  const placeholder = toPlaceholder(parameter)
  const signs = signsIn(text)
  const isWithin = (at: number): boolean => signs.some((sign) => sign.start < at && at < sign.end)
  let at = 0
  let put = ''
  for (const { start, end } of ranges) {
    if (start < at || end < start || end > text.length || isWithin(start) || isWithin(end))
      throw new RangeError(`range ${start}–${end} is out of order or splits a sign`)
    const isAfterLoneSign =
      start > at && text[start - 1] === OPEN && !signs.some((sign) => sign.end === start)
    put += text.slice(at, start) + (isAfterLoneSign ? OPEN : '') + placeholder
    at = end
  }
  return put + text.slice(at)
}

/** The text with another name in a parameter's placeholders. */
export function renamePlaceholder(text: string, from: string, to: string): string {
  return putPlaceholder(
    text,
    placeholdersIn(text).filter((one) => one.name === from),
    to,
  )
}

/** The text with values in the placeholders' places, and doubled signs as one. Values are put in as they are. */
export function fillPlaceholders(text: string, values: Values): Filled {
  const pieces: FilledPiece[] = []
  const missing = new Set<string>()
  let filled = ''
  let at = 0
  const add = (kind: FilledPiece['kind'], end: number, put: string): void => {
    if (end === at) return
    pieces.push({
      kind,
      source: { start: at, end },
      filled: { start: filled.length, end: filled.length + put.length },
    })
    filled += put
    at = end
  }
  for (const sign of signsIn(text)) {
    const value = sign.name === null ? OPEN : values.get(sign.name)
    if (value === undefined) missing.add(sign.name!)
    else {
      add('text', sign.start, text.slice(at, sign.start))
      add(sign.name === null ? 'escape' : 'placeholder', sign.end, value)
    }
  }
  add('text', text.length, text.slice(at))
  return { text: filled, missing: [...missing], pieces }
}

/**
 * The text as it was before its parameters were made: the carried value in each placeholder's place. Links and coverage
 * compare this text, so that making a parameter turns no quotation into a derivation.
 */
export function withoutPlaceholders(text: string, carried: Values): Filled {
  return fillPlaceholders(text, carried)
}

/**
 * Where a place of the source stands in the filled text.
 * @param side where it lies within a placeholder: -1 gives the start of what stands for it, 1 the end
 */
export function toFilled(filled: Filled, at: number, side: -1 | 1 = 1): number {
  return mapPlace(
    filled.pieces,
    at,
    side,
    (piece) => piece.source,
    (piece) => piece.filled,
  )
}

/** The same from the filled text back to the source. Where a value is empty, -1 gives the place before its placeholder. */
export function toSource(filled: Filled, at: number, side: -1 | 1 = 1): number {
  return mapPlace(
    filled.pieces,
    at,
    side,
    (piece) => piece.filled,
    (piece) => piece.source,
  )
}

function mapPlace(
  pieces: readonly FilledPiece[],
  at: number,
  side: -1 | 1,
  from: (piece: FilledPiece) => Range,
  to: (piece: FilledPiece) => Range,
): number {
  const touching = pieces.filter((piece) => from(piece).start <= at && at <= from(piece).end)
  const piece = side < 0 ? touching[0] : touching.at(-1)
  if (!piece) return 0
  const [own, other] = [from(piece), to(piece)]
  if (piece.kind === 'text') return other.start + (at - own.start)
  if (at === own.start && own.start < own.end) return other.start
  if (at === own.end && own.start < own.end) return other.end
  return side < 0 ? other.start : other.end
}

/** A range of the source in the filled text, widened to whole values. */
export function toFilledRange(filled: Filled, range: Range): Range {
  return { start: toFilled(filled, range.start, -1), end: toFilled(filled, range.end, 1) }
}

/** A range of the filled text in the source, widened to whole placeholders. */
export function toSourceRange(filled: Filled, range: Range): Range {
  return { start: toSource(filled, range.start, -1), end: toSource(filled, range.end, 1) }
}
