/** The rows of the panel's lists, and which of them are shown. Pure. */
import type { CoverageModel, LeftOutItem, MissingItem, UnprovenItem } from './model.ts'

export type CoverageRow =
  | { readonly is: 'missing' | 'unsure'; readonly key: string; readonly item: MissingItem }
  | { readonly is: 'left out'; readonly key: string; readonly item: LeftOutItem }
  | { readonly is: 'unproven'; readonly key: string; readonly item: UnprovenItem }

export type CoverageList = CoverageRow['is']

/** The lists, top to bottom. */
export const coverageLists = ['missing', 'unsure', 'unproven', 'left out'] as const satisfies CoverageList[]

/**
 * What was dealt with, by its row: the Change that the list must know of before it tells the truth of it again; null while
 * it is still being done.
 */
export type Dealt = ReadonlyMap<string, number | null>

/** The rows of each list that are not dealt with. @param sequence the last Change that the lists know of */
export function rowsOf(
  { missing, unsure, unproven, leftOut }: CoverageModel,
  dealt: Dealt,
  sequence: number,
): ReadonlyMap<CoverageList, readonly CoverageRow[]> {
  const all: readonly CoverageRow[] = [
    ...missing.map((item) => ({ is: 'missing', key: `open ${item.id}`, item }) as const),
    ...unsure.map((item) => ({ is: 'unsure', key: `open ${item.id}`, item }) as const),
    ...unproven.map((item) => ({ is: 'unproven', key: `unproven ${item.id}`, item }) as const),
    ...leftOut.map((item) => ({ is: 'left out', key: `out ${item.id}`, item }) as const),
  ]
  const isOpen = ({ key }: CoverageRow): boolean => {
    const known = dealt.get(key)
    return known === undefined || (known !== null && known <= sequence)
  }
  return new Map(coverageLists.map((list) => [list, all.filter((row) => row.is === list && isOpen(row))]))
}

/** The row that the keyboard goes on to when one is dealt with: the next of its list, else the one before, else any. */
export function rowBehind(rows: readonly CoverageRow[], key: string): string | null {
  const at = rows.findIndex((row) => row.key === key)
  const own = rows[at]?.is
  const next = rows[at + 1]
  const before = rows[at - 1]
  if (next?.is === own) return next?.key ?? null
  if (before?.is === own) return before?.key ?? null
  return (next ?? before)?.key ?? null
}
