/** What an alignment of two texts says: for each word of the one its partner in the other. */
import type { Wording } from './wording.ts'

export const none = -1

export interface TextAlignment {
  readonly older: Wording
  readonly newer: Wording
  /** For each token of the older text its partner in the newer one, and the other way round; `none` where it has none. */
  readonly partners: Int32Array
  readonly origins: Int32Array
  /** 1 for tokens of the older text that stand elsewhere in the order. */
  readonly moved: Uint8Array
  /** Whether nothing was given up for its cost: then what has no partner is gone. */
  readonly isComplete: boolean
}

/** What is filled in while texts are laid side by side. */
export type Draft = Omit<TextAlignment, 'isComplete'>

export function setPair({ partners, origins }: Draft, from: number, to: number): void {
  partners[from] = to
  origins[to] = from
}
