/** Counts and sources in words. Pure. */
import type { RuleSource } from '../../shared/procedure/review/types.ts'
import { countOpen, type Listed } from './listed.ts'

/** "5 open, 2 passed over" */
export function wordsOfCounts(listed: Listed): string {
  const { length } = listed.passedOver
  const open = countOpen(listed)
  const words = open === 0 ? 'Nothing open' : `${open} open`
  return length === 0 ? words : `${words}, ${length} passed over`
}

export function wordsOfPassedOver({ passedOver: { length } }: Listed): string {
  if (length === 0) return 'Nothing was passed over.'
  return length === 1 ? 'One finding was passed over.' : `${length} findings were passed over.`
}

/** "3 findings", for what stands beside a button. */
export const countInWords = (count: number): string => (count === 1 ? '1 finding' : `${count} findings`)

/** Where a rule comes from: "Source: sudo(8) (section named from memory)." */
export function wordsOfSource({ says, isFromMemory }: RuleSource): string {
  if (says === 'common practice, no source') return 'Common practice, no source.'
  return `Source: ${says}${isFromMemory ? ' (named from memory)' : ''}.`
}
