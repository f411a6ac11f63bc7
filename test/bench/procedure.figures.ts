/** Figures of the procedure: a long one is as quick as a short one. */
import type { Figure } from './figure.ts'
import { typingRatio } from './support/long-procedure.ts'

export const figures: readonly Figure[] = [
  {
    id: 'procedure.7',
    what: 'key to frame in a procedure of 200 steps, 95th percentile, beside a bare CodeMirror',
    bound: { op: '<=', value: 1.3 },
    quick: false,
    measure: async () => ({ value: await typingRatio(), unit: 'times' }),
  },
]
