/** What happened on each machine of the lab, over all its projects. */
import { instantOf, type Moment } from '../lab/moment.ts'
import type { Entry, Machine, Mark } from '../lab/model.ts'
import { momentOf, placeOf } from './entry-facts.ts'
import { machineOfPlace, whereOf } from './places.ts'

export interface MachineEvent {
  readonly entry: Entry
  readonly at: Moment
}

/** What the list of machines is made of. */
export interface PlacedEntries {
  /** Entries that say or were given a place. */
  readonly entries: readonly Entry[]
  readonly marks: ReadonlyMap<string, readonly Mark[]>
}

/** All that happened on a machine, in order. */
export function eventsOn(
  machine: Machine,
  { entries, marks }: PlacedEntries,
  machines: readonly Machine[],
): MachineEvent[] {
  return entries
    .filter((entry) => machineOfPlace(placeOf(entry, marks.get(entry.id)), machines)?.id === machine.id)
    .map((entry) => ({ entry, at: momentOf(entry, marks.get(entry.id)) }))
    .sort((a, b) => instantOf(a.at) - instantOf(b.at) || (a.entry.id < b.entry.id ? -1 : 1))
}

/** How many entries happened at each place, by `whereOf`. */
export function countsByWhere(
  { entries, marks }: PlacedEntries,
  machines: readonly Machine[],
): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const entry of entries) {
    const where = whereOf(placeOf(entry, marks.get(entry.id)), machines)
    if (where !== null) counts.set(where, (counts.get(where) ?? 0) + 1)
  }
  return counts
}

/** Names of hosts that no machine is known by, with how often each stands in the journals; the most frequent first. */
export function unknownHosts(
  { entries, marks }: PlacedEntries,
  machines: readonly Machine[],
): { readonly host: string; readonly count: number }[] {
  const names = new Map<string, { host: string; count: number }>()
  for (const entry of entries) {
    const place = placeOf(entry, marks.get(entry.id))
    if (!place?.host || machineOfPlace(place, machines)) continue
    const key = place.host.toLowerCase()
    const known = names.get(key) ?? { host: place.host, count: 0 }
    names.set(key, { ...known, count: known.count + 1 })
  }
  return [...names.values()].sort((a, b) => b.count - a.count || a.host.localeCompare(b.host))
}
