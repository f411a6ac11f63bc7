/** A piece of a text that was read by itself, put back to where it stands. */

/** The same tree with other places. */
export function withPlaces<T>(value: T, from: (at: number) => number, to: (at: number) => number): T {
  if (Array.isArray(value)) return value.map((one: unknown) => withPlaces(one, from, to)) as T
  if (typeof value !== 'object' || value === null) return value
  const moved = Object.entries(value).map(([key, inner]: [string, unknown]): [string, unknown] => {
    if (key === 'from' && typeof inner === 'number') return [key, from(inner)]
    if (key === 'to' && typeof inner === 'number') return [key, to(inner)]
    return [key, withPlaces(inner, from, to)]
  })
  return Object.fromEntries(moved) as T
}
