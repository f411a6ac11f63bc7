/**
 * Selectors as the W3C Web Annotation Data Model (Recommendation, 23 February 2017) gives them to others: positions count code
 * points (§4.2.5), while the lab counts UTF-16 code units.
 */
import type { Range, Selector, TextQuoteSelector } from '../../lab/model.ts'
import { toStorableText } from '../../lab/text.ts'

/** A stretch of one state of a text, said by its words and by its place. */
export interface ExportedSelectors {
  readonly quote: TextQuoteSelector
  /** In code points, from 0, the end left out. Null where the text is not known any more. */
  readonly position: {
    readonly type: 'TextPositionSelector'
    readonly start: number
    readonly end: number
  } | null
}

/**
 * Both selectors of a stretch.
 * @param textOf the text that they speak of; null where it is not known
 */
export function toExported({ quote, position }: Selector, text: string | null): ExportedSelectors {
  const { exact, prefix, suffix } = quote
  return {
    quote: {
      type: 'TextQuoteSelector',
      exact: toStorableText(exact),
      prefix: toStorableText(prefix),
      suffix: toStorableText(suffix),
    },
    position: text === null ? null : { type: 'TextPositionSelector', ...toCodePoints(text, position) },
  }
}

/** A range of UTF-16 code units as one of code points. A place between the halves of a pair is taken for the one behind it. */
export function toCodePoints(text: string, { start, end }: Range): Range {
  const before = countCodePoints(text, 0, start)
  return { start: before, end: before + countCodePoints(text, start, end) }
}

function countCodePoints(text: string, start: number, end: number): number {
  let count = end - start
  for (let at = start; at < end; at++) if (isSecondHalf(text, at)) count--
  return count
}

function isSecondHalf(text: string, at: number): boolean {
  const unit = text.charCodeAt(at)
  if (unit < 0xdc00 || unit > 0xdfff || at === 0) return false
  const before = text.charCodeAt(at - 1)
  return before >= 0xd800 && before <= 0xdbff
}
