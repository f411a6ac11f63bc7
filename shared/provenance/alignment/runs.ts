/** Runs of tokens by a number: the rolling hash of R. Karp and M. Rabin (1987), of any run at the cost of one. */
import type { Range } from '../../lab/model.ts'
import type { Wording } from './wording.ts'

const BASE = 0x01000193

/** Hashes of everything before each token, modulo 2³². */
export interface Hashes {
  readonly sums: Int32Array
  readonly powers: Int32Array
}

export function hashesOf({ ids }: Wording): Hashes {
  const sums = new Int32Array(ids.length + 1)
  const powers = new Int32Array(ids.length + 1)
  powers[0] = 1
  for (let i = 0; i < ids.length; i++) {
    sums[i + 1] = Math.imul(sums[i]!, BASE) + Math.imul(ids[i]!, 0x9e3779b1)
    powers[i + 1] = Math.imul(powers[i]!, BASE)
  }
  return { sums, powers }
}

/** Equal for equal runs, and very nearly never for others. */
export function hashOf({ sums, powers }: Hashes, { start, end }: Range): number {
  return (sums[end]! - Math.imul(sums[start]!, powers[end - start]!)) | 0
}

/** Whether two runs of one length are the same, token by token. */
export function isSameRun(older: Wording, from: number, newer: Wording, to: number, length: number): boolean {
  for (let i = 0; i < length; i++) if (older.ids[from + i] !== newer.ids[to + i]) return false
  return true
}
