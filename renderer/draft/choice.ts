/** Choosing entries in a list: one, or a range from where the last one was chosen. Pure. */
import type { EntryId } from '../../shared/lab/ids.ts'

export interface Choice {
  readonly chosen: ReadonlySet<EntryId>
  /** Where the keyboard is in the list, from 0. */
  readonly at: number
  /** Where a range begins. */
  readonly anchor: number
}

/** All entries from one on; none for an entry that is not there. */
export function choiceFrom(order: readonly EntryId[], from: EntryId | null): Choice {
  const at = from === null ? -1 : order.indexOf(from)
  return { chosen: new Set(at < 0 ? [] : order.slice(at)), at: Math.max(at, 0), anchor: Math.max(at, 0) }
}

/** Chooses an entry, or no longer; with `isRange` all from the anchor to it become what the anchor is. */
export function choose(
  { chosen, anchor }: Choice,
  order: readonly EntryId[],
  at: number,
  isRange: boolean,
): Choice {
  const next = new Set(chosen)
  const set = (place: number, isIn: boolean): void => {
    const id = order[place]
    if (id === undefined) return
    if (isIn) next.add(id)
    else next.delete(id)
  }
  if (!isRange) {
    set(at, !chosen.has(order[at]!))
    return { chosen: next, at, anchor: at }
  }
  const isIn = chosen.has(order[anchor]!)
  for (let place = Math.min(anchor, at); place <= Math.max(anchor, at); place += 1) set(place, isIn)
  return { chosen: next, at, anchor }
}

/** Moves the keyboard; the anchor goes along. */
export const moveTo = (choice: Choice, at: number): Choice => ({ ...choice, at, anchor: at })
