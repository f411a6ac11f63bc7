/** The lines of the list: rows, and heads of groups where sources that are the same were asked for. Pure. */
import type { SameSources } from '../../../../shared/sources/duplicates.ts'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import type { SourceFilter } from '../../../../shared/sources/filter.ts'
import { nextPlace, placeOfTyped } from '../../../ui/roving.ts'
import { titleOf } from '../rows.ts'

export type ListItem =
  | { readonly kind: 'row'; readonly key: string; readonly row: SourceFacts; readonly place: number }
  | { readonly kind: 'same'; readonly key: string; readonly group: SameSources }

/** The lines that show these rows. Places count rows only, from 1 on. */
export function itemsOf(
  shown: readonly SourceFacts[],
  filter: SourceFilter,
  same: ReadonlyMap<string, SameSources>,
): ListItem[] {
  const toRow = (row: SourceFacts, at: number): ListItem => {
    return { kind: 'row', key: row.source.id, row, place: at + 1 }
  }
  if (!filter.flags.includes('same as another')) return shown.map(toRow)
  const groups = new Map<SameSources | null, SourceFacts[]>()
  for (const row of shown) {
    const group = same.get(row.source.id) ?? null
    groups.set(group, [...(groups.get(group) ?? []), row])
  }
  let place = 0
  return [...groups].flatMap(([group, rows]) => [
    ...(group ? [{ kind: 'same', key: `same ${group.members[0]!.source.id}`, group } as const] : []),
    ...rows.map((row) => toRow(row, place++)),
  ])
}

/**
 * The place of the row that a key leads to, null where the key does not move. The list is taken as a ring, but for a page.
 * @param page how many rows are in view
 */
export function rowAfterKey(key: string, place: number, count: number, page: number): number | null {
  if (count === 0) return null
  if (key === 'PageDown') return Math.min(count - 1, place + page)
  if (key === 'PageUp') return Math.max(0, place - page)
  return nextPlace(key, place, count, 'vertical')
}

/** The place of the row whose title begins with what was typed, after the present one. */
export function rowAfterTyping(typed: string, rows: readonly SourceFacts[], place: number): number | null {
  const titles = rows.map(({ source }) => titleOf(source))
  return placeOfTyped(typed, titles, place)
}
