/** Which proposed steps are ticked. Pure. */
import type { DraftItem } from './model.ts'

/** What a person ticked or unticked, by the step's id. */
export type Ticks = ReadonlyMap<string, boolean>

/** Ticked unless there is a doubt, or as the person said. */
export const isTicked = ({ id, doubt }: DraftItem, ticks: Ticks): boolean => ticks.get(id) ?? doubt === null

export function withTick(row: DraftItem, ticks: Ticks): Ticks {
  return new Map(ticks).set(row.id, !isTicked(row, ticks))
}

/** The steps that were taken, until the draft knows of it: by id, the Change that it must know of; null while it is made. */
export type Taken = ReadonlyMap<string, number | null>

/** @param sequence the last Change that the rows know of */
export function rowsLeft(rows: readonly DraftItem[], taken: Taken, sequence: number): DraftItem[] {
  return rows.filter(({ id }) => {
    const known = taken.get(id)
    return known === undefined || (known !== null && known <= sequence)
  })
}

export function withTaken(taken: Taken, rows: readonly DraftItem[], known: number | null | undefined): Taken {
  const next = new Map(taken)
  for (const { id } of rows)
    if (known === undefined) next.delete(id)
    else next.set(id, known)
  return next
}
