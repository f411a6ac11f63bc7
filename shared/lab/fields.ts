/** Records field by field: whether two are the same, and how a change made from an older one lands on a newer one. */

/**
 * A record with what was changed from `seen` to `wanted` set in what stands now. A list counts as a set: what was added
 * to it and taken from it is added and taken.
 */
export function mergeFields<T extends object>(seen: T, wanted: T, present: T): T {
  const [was, set, now] = [seen, wanted, present] as unknown as Record<string, unknown>[]
  const next: Record<string, unknown> = { ...now }
  for (const field of new Set([...Object.keys(was!), ...Object.keys(set!)]))
    if (!isSame(was![field], set![field])) next[field] = mergeLists(was![field], set![field], now![field])
  return next as T
}

/** A list as a set: what went from `was` to `set` goes from `now`, what came comes. Anything but three lists is `set`. */
export function mergeLists(was: unknown, set: unknown, now: unknown): unknown {
  if (!Array.isArray(was) || !Array.isArray(set) || !Array.isArray(now)) return set
  const [before, wanted, present] = [was, set, now] as unknown[][]
  const kept = present!.filter((item) => wanted!.includes(item) || !before!.includes(item))
  return [...kept, ...wanted!.filter((item) => !before!.includes(item) && !present!.includes(item))]
}

/** Equality of plain values. Key order does not matter. */
export function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false
  if (Array.isArray(a) !== Array.isArray(b)) return false
  const keys = Object.keys(a)
  return (
    keys.length === Object.keys(b).length &&
    keys.every(
      (key) => key in b && isSame((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
    )
  )
}
