/** Which things of a map remain under a filter. */
import type { MapFilter, MapMatter, MapRelation, MapThing } from './model.ts'

/**
 * The matter that a filter leaves. Days and a tag choose sources and entries, and of the procedures what rests on them,
 * hop by hop; a procedure chooses its own rows, and of sources and entries what those rest on. All that is asked for must
 * hold. A relation remains where both its ends do.
 */
export function filterMatter(matter: MapMatter, filter: MapFilter): MapMatter {
  const kept = keptBy(matter, filter)
  if (!kept) return matter
  return {
    ...matter,
    things: matter.things.filter(({ key }) => kept.has(key)),
    relations: matter.relations.filter(({ newer, older }) => kept.has(newer) && kept.has(older)),
  }
}

function keptBy({ things, relations }: MapMatter, filter: MapFilter): ReadonlySet<string> | null {
  const { from, to, tag, procedure } = filter
  const sets: Set<string>[] = []
  if (from !== null || to !== null)
    sets.push(
      withRests(things, relations, ({ day }) => day !== null && day >= (from ?? '') && day <= (to ?? '~')),
    )
  if (tag !== null) sets.push(withRests(things, relations, ({ tags }) => tags.includes(tag)))
  if (procedure !== null) {
    const own = things.filter((thing) => thing.procedure === procedure).map(({ key }) => key)
    const reached = reach(relations, own, 'back')
    const other = things.filter((thing) => thing.procedure !== null && thing.procedure !== procedure)
    for (const { key } of other) reached.delete(key)
    sets.push(reached)
  }
  if (sets.length === 0) return null
  return new Set(things.map(({ key }) => key).filter((key) => sets.every((set) => set.has(key))))
}

/** Sources and entries that fit, and the rows of procedures that rest on them. */
function withRests(
  things: readonly MapThing[],
  relations: readonly MapRelation[],
  fits: (thing: MapThing) => boolean,
): Set<string> {
  const chosen = things.filter((thing) => thing.band !== 'procedure' && fits(thing)).map(({ key }) => key)
  const forward = reach(relations, chosen, 'forward')
  const rests = things.filter(({ key, band }) => band === 'procedure' && forward.has(key))
  return new Set([...chosen, ...rests.map(({ key }) => key)])
}

/** The starts, and everything within reach of them along relations in one direction. */
export function reach(
  relations: readonly MapRelation[],
  starts: readonly string[],
  direction: 'back' | 'forward',
): Set<string> {
  const next = new Map<string, string[]>()
  for (const { newer, older } of relations) {
    const [from, to] = direction === 'back' ? [newer, older] : [older, newer]
    const known = next.get(from)
    if (known) known.push(to)
    else next.set(from, [to])
  }
  const met = new Set(starts)
  for (const key of met) for (const far of next.get(key) ?? []) met.add(far)
  return met
}
