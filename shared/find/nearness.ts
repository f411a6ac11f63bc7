/**
 * How near a text is to the learnt ones: the cosine of their TF-IDF vectors (Manning, Raghavan, Schütze: Introduction to
 * Information Retrieval, 2008, ch. 6), with 1 + ln(tf) and an idf that is also defined for words never seen.
 * All sums run in an order that the texts alone decide, so that equal models give equal numbers to the last bit.
 */
import type { TagModel } from './tag-model.ts'
import { compareText, type TermCounts } from './tag-terms.ts'

/** A learnt text and how near it is, 0 (no word in common) to 1. */
export interface Neighbour {
  readonly id: string
  readonly nearness: number
}

/** The weight of a term that so many of the learnt texts hold: high for a rare one. */
export function rarityOf(model: TagModel, term: string): number {
  const held = model.holders.get(term)?.length ?? 0
  return Math.log(1 + (model.texts.size + 1) / (held + 0.5))
}

/** A text's terms with their weights; a value that is read many times for one suggestion. */
export function toWeights(model: TagModel, terms: TermCounts): ReadonlyMap<string, number> {
  return new Map(terms.map(([term, count]) => [term, weightOf(count, rarityOf(model, term))]))
}

/** The learnt texts that share a word with these weights, nearest first, equal ones by id. */
export function findNeighbours(model: TagModel, weights: ReadonlyMap<string, number>): Neighbour[] {
  const products = new Map<string, number>()
  for (const [term, weight] of weights) {
    const rarity = rarityOf(model, term)
    for (const [id, count] of model.holders.get(term) ?? [])
      products.set(id, (products.get(id) ?? 0) + weight * weightOf(count, rarity))
  }
  const lengths = lengthsOf(model)
  const length = lengthOf(weights.values())
  return [...products]
    .map(([id, product]) => ({ id, nearness: product / (length * lengths.get(id)!) }))
    .sort((one, other) => other.nearness - one.nearness || compareText(one.id, other.id))
}

/** How near a text that need not be learnt is to these weights. */
export function nearnessTo(model: TagModel, weights: ReadonlyMap<string, number>, terms: TermCounts): number {
  const others = toWeights(model, terms)
  let product = 0
  for (const [term, weight] of others) product += weight * (weights.get(term) ?? 0)
  return product === 0 ? 0 : product / (lengthOf(weights.values()) * lengthOf(others.values()))
}

function weightOf(count: number, rarity: number): number {
  return (1 + Math.log(count)) * rarity
}

function lengthOf(weights: Iterable<number>): number {
  let sum = 0
  for (const weight of weights) sum += weight * weight
  return Math.sqrt(sum)
}

/** Follows from the model alone, which never changes: reckoned once for each. */
const knownLengths = new WeakMap<TagModel['holders'], ReadonlyMap<string, number>>()

function lengthsOf(model: TagModel): ReadonlyMap<string, number> {
  const known = knownLengths.get(model.holders)
  if (known) return known
  const rarities = new Map([...model.holders.keys()].map((term) => [term, rarityOf(model, term)]))
  const lengths = new Map<string, number>()
  for (const [id, { terms }] of model.texts) {
    let sum = 0
    for (const [term, count] of terms) sum += weightOf(count, rarities.get(term)!) ** 2
    lengths.set(id, Math.sqrt(sum))
  }
  knownLengths.set(model.holders, lengths)
  return lengths
}
