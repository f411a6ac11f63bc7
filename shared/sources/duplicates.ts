/** Sources that seem to be the same: by their addresses or by the bytes of a capture. */
import type { SourceFacts } from './facts.ts'

export interface SameSources {
  /** At least two, in the order in which they came. */
  readonly members: readonly SourceFacts[]
}

/** Why a source is taken for the same as others. */
export type SameBy = 'address' | 'content'

/**
 * Groups of sources of which each has an address key or the bytes of a capture in common with another of its group. Each
 * source is in one group at most.
 * @param apart sets of ids that a person said are different; what only such ones have in common joins nothing
 */
export function findSameSources(
  rows: readonly SourceFacts[],
  apart: readonly (readonly string[])[] = [],
): SameSources[] {
  const sets = apart.map((ids) => new Set(ids))
  const groups = new Joined(rows.length)
  for (const alike of bucketsOf(rows)) {
    const areApart = sets.some((ids) => alike.every((at) => ids.has(rows[at]!.source.id)))
    if (!areApart) for (const at of alike) groups.join(alike[0]!, at)
  }
  return groups
    .all()
    .filter((group) => group.length > 1)
    .map((group) => ({ members: group.map((at) => rows[at]!) }))
}

/** Places of rows that have an address key or bytes in common, two or more together. */
function bucketsOf(rows: readonly SourceFacts[]): number[][] {
  const buckets = new Map<string, number[]>()
  const put = (key: string, at: number): void => {
    const bucket = buckets.get(key)
    if (bucket) bucket.push(at)
    else buckets.set(key, [at])
  }
  rows.forEach(({ key, digests }, at) => {
    if (key !== null) put(`address ${key}`, at)
    for (const digest of digests) put(`content ${digest}`, at)
  })
  return [...buckets.values()].filter((bucket) => bucket.length > 1)
}

/** Disjoint sets of places (union-find with path halving). */
class Joined {
  private readonly parents: number[]

  constructor(count: number) {
    this.parents = Array.from({ length: count }, (_, at) => at)
  }

  private rootOf(at: number): number {
    let root = at
    while (this.parents[root] !== root) root = this.parents[root] = this.parents[this.parents[root]!]!
    return root
  }

  join(one: number, other: number): void {
    const [a, b] = [this.rootOf(one), this.rootOf(other)]
    this.parents[Math.max(a, b)] = Math.min(a, b)
  }

  /** In the order of their first places. */
  all(): number[][] {
    const sets = new Map<number, number[]>()
    for (const at of this.parents.keys()) {
      const root = this.rootOf(at)
      const set = sets.get(root)
      if (set) set.push(at)
      else sets.set(root, [at])
    }
    return [...sets.values()]
  }
}

/** The others of its group that a source has the same address as or, where there are none, the same bytes. */
export function sameAs(
  row: SourceFacts,
  { members }: SameSources,
): { readonly by: SameBy; readonly others: readonly SourceFacts[] } {
  const others = members.filter(({ source }) => source.id !== row.source.id)
  const byAddress = others.filter(({ key }) => key !== null && key === row.key)
  if (byAddress.length > 0) return { by: 'address', others: byAddress }
  return {
    by: 'content',
    others: others.filter(({ digests }) => digests.some((one) => row.digests.includes(one))),
  }
}

/** The one of several to keep when nothing else is said: the most used, of equal ones the one that was added first. */
export function likeliestKept(members: readonly SourceFacts[]): SourceFacts {
  return members.reduce((kept, one) =>
    one.uses > kept.uses || (one.uses === kept.uses && one.source.id < kept.source.id) ? one : kept,
  )
}
