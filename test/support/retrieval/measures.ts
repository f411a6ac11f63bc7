/**
 * Measures of retrieval as trec_eval defines them (https://github.com/usnistgov/trec_eval): over the queries that have at
 * least one relevant document; average precision over the first 1,000 retrieved, divided by the number of all relevant ones,
 * found or not; P30 is the number of relevant ones among the first 30, divided by 30 however many were retrieved. The
 * reciprocal rank is 1 / the place of the one wanted, 0 where it was not retrieved.
 */

const DEPTH = 1000

export function averagePrecision(retrieved: readonly string[], relevant: ReadonlySet<string>): number {
  let found = 0
  let sum = 0
  for (const [at, id] of retrieved.slice(0, DEPTH).entries()) {
    if (!relevant.has(id)) continue
    found++
    sum += found / (at + 1)
  }
  return sum / relevant.size
}

export function precisionAt(
  depth: number,
  retrieved: readonly string[],
  relevant: ReadonlySet<string>,
): number {
  return retrieved.slice(0, depth).filter((id) => relevant.has(id)).length / depth
}

export function reciprocalRank(retrieved: readonly string[], wanted: string): number {
  const at = retrieved.indexOf(wanted)
  return at < 0 ? 0 : 1 / (at + 1)
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
