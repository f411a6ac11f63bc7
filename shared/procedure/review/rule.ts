/** The shape of a rule. */
import type { Reading } from './reading.ts'
import type { FaultPlace, RuleSource } from './types.ts'

export interface Rule {
  /** Stable: silences name it. */
  readonly id: RuleId
  /** As it is shown. */
  readonly name: string
  /** Why it matters, in one sentence. */
  readonly why: string
  readonly source: RuleSource
  /** Rules that may speak up at the same fault, because it is a fault for them too. */
  readonly declares: readonly RuleId[]
  readonly find: (reading: Reading) => FaultPlace[]
}

export const ruleIds = [
  'one action',
  'plain verb',
  'vague words',
  'condition first',
  'long sentence',
  'hard to read',
  'undefined abbreviation',
  'caution with action',
  'late caution',
  'undefined parameter',
  'unused parameter',
  'literal value',
  'lost reference',
  'destructive without caution',
  'destructive without back-up',
  'no expect',
  'no undo',
  'no evidence',
  'refused command',
  'sudo as root',
  'pasted prompt',
  'silent place',
  'service rebuilt',
] as const
export type RuleId = (typeof ruleIds)[number]

export const handbook = (says: string): RuleSource => ({ says, isFromMemory: false })
export const remembered = (says: string): RuleSource => ({ says, isFromMemory: true })
export const practice: RuleSource = { says: 'common practice, no source', isFromMemory: false }
