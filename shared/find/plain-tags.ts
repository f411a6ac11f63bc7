/** The plain ways to suggest tags. {@link scoreOwnTags} has to be better than these, or it would not be worth its code. */
import { findNeighbours, toWeights } from './nearness.ts'
import type { TagModel } from './tag-model.ts'
import { compareText, type TermCounts } from './tag-terms.ts'

/** So many neighbours have a say; the best of 5, 10, 20, 30 and 40 in cross-validation. */
const NEIGHBOURS = 20

/** The person's tags, the most used first, whatever the text says. */
export function mostUsedTags(model: TagModel): string[] {
  return byWorth(model.uses)
}

/** The tags of the nearest texts, each weighed by its nearness; then the most used ones. */
export function nearestTags(model: TagModel, terms: TermCounts, neighbours = NEIGHBOURS): string[] {
  const worth = new Map<string, number>()
  for (const { id, nearness } of findNeighbours(model, toWeights(model, terms)).slice(0, neighbours))
    for (const tag of model.texts.get(id)!.tags) worth.set(tag, (worth.get(tag) ?? 0) + nearness)
  return [...new Set([...byWorth(worth), ...mostUsedTags(model)])]
}

function byWorth(worth: ReadonlyMap<string, number>): string[] {
  return [...worth]
    .sort((one, other) => other[1] - one[1] || compareText(one[0], other[0]))
    .map(([tag]) => tag)
}
