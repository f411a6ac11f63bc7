/** Picking words out of a capture. */
import { pickFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import type { LabId } from '../../../shared/lab/ids.ts'
import type { Capture, Range, Source } from '../../../shared/lab/model.ts'
import { balancedRange } from '../../../shared/markdown/balance.ts'
import type { Dress } from '../../editor/extensions.ts'
import { titleOf } from './rows.ts'

/** More than this is not carried at once, in UTF-16 code units: a link keeps every word that it quotes. */
export const MOST_CARRIED = 200_000
/** From this length on a text is shown without parsing it and without wrapping its lines, in UTF-16 code units. */
export const LONG_TEXT = 2_000_000

/** The fragment of a capture's ranges; null where they hold no words or too many of them. */
export function pickFromCapture(
  lab: LabId,
  source: Source,
  capture: Capture,
  ranges: readonly Range[],
): Fragment | null {
  if (isTooMuch(ranges)) return null
  return pickFragment(
    {
      lab,
      node: { kind: 'capture', id: capture.id },
      revision: capture.revision,
      origin: { kind: 'source' },
      title: titleOf(source),
      address: source.address,
      text: capture.text,
    },
    ranges,
  )
}

export function isTooMuch(ranges: readonly Range[]): boolean {
  return ranges.reduce((sum, { start, end }) => sum + end - start, 0) > MOST_CARRIED
}

/** From this length on a text shows its signs, since dressing it takes too long. In UTF-16 code units. */
export const LONG_TO_DRESS = 1_000_000

/** Whether a capture's text is shown as it reads, without its Markdown signs. */
export function isDressed(source: Source, capture: Capture): boolean {
  return dressOf(source, capture) === 'markdown' && capture.text.length < LONG_TO_DRESS
}

/**
 * A range that was selected in a text whose signs are hidden, grown so that no formatted piece is cut in two. Only the
 * blocks that it touches are looked at, so that it is quick in a long text.
 * @param blocks of the text's first level, in order
 */
export function wholeRange(
  text: string,
  { start, end }: Range,
  blocks: readonly { readonly from: number; readonly to: number }[],
): Range {
  const touched = blocks.filter((block) => block.from <= end && block.to >= start)
  const from = Math.min(start, touched[0]?.from ?? start)
  const to = Math.max(end, touched.at(-1)?.to ?? end)
  const grown = balancedRange(text.slice(from, to), { start: start - from, end: end - from })
  return { start: grown.start + from, end: grown.end + from }
}

/** How a capture's text is shown. */
export function dressOf(source: Source, capture: Capture): Dress {
  if (capture.text.length >= LONG_TEXT) return 'long'
  return source.kind === 'text' ? 'text' : 'markdown'
}
