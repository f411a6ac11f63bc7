/** The words of a trace. Pure. */
import type { CarryWay, LinkEnd, Range } from '../../shared/lab/model.ts'
import type { TraceHop } from '../../shared/provenance/trace.ts'

/** How a link was made, as a person would say it. */
export const wayWords: Readonly<Record<CarryWay, string>> = {
  drag: 'by dragging',
  keyboard: 'by keyboard',
  button: 'by button',
  copy: 'by copying',
  draft: 'by drafting from the journal',
  sample: 'with the sample',
}

/** The words of an end as they were carried; empty for a thing as a whole. */
export function wordsOfEnd({ ranges }: LinkEnd): string {
  return ranges.map(({ quote }) => quote.exact).join('\n')
}

/** The words of an end as they stand now in its text; empty where none are left. */
export function wordsAt(places: readonly (Range | null)[], text: string): string {
  return places.flatMap((place) => (place ? [text.slice(place.start, place.end)] : [])).join('\n')
}

/** The places that an end's words still have. */
export function placesLeft(places: readonly (Range | null)[]): Range[] {
  return places.filter((place) => place !== null)
}

/** How much of what was carried still stands, for a link whose words were reworded: "62 % of the words kept". */
export function keptWords({ state }: Pick<TraceHop, 'state'>): string | null {
  if (!state || state.type !== 'derives') return null
  return `${Math.round(state.kept * 100)} % of the words kept`
}

/** What is true of a link whose words were lost. */
export function looseWords({ state }: Pick<TraceHop, 'state'>): string | null {
  if (!state?.loose) return null
  if (state.newer.loose && state.older.loose) return 'The words can no longer be found at either end.'
  return state.newer.loose
    ? 'The words can no longer be found in the newer text.'
    : 'The words can no longer be found in the older text.'
}
