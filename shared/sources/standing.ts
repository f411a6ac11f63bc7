/** Which source stands for one that was merged into another. */
import type { Source } from '../lab/model.ts'

/** The source that stands for this one: itself, or the one that it was merged into, over any number of merges. */
export function standingSource(
  all: { readonly sources: ReadonlyMap<string, Source> },
  source: Source,
): Source {
  if (source.mergedInto === null) return source
  const seen = new Set<string>()
  let at = source
  // Two windows may have merged two sources into each other.
  while (at.mergedInto !== null && !seen.has(at.id)) {
    seen.add(at.id)
    const next = all.sources.get(at.mergedInto)
    if (!next) break
    at = next
  }
  return at
}
