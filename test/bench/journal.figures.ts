/** Figures of the journal: a long one is as quick as a short one. */
import type { Figure } from './figure.ts'
import { ratio } from './support/long-journal.ts'

export const figures: readonly Figure[] = [
  {
    id: 'journal.1a',
    what: 'key to frame in a journal of 10,000 entries, 95th percentile, beside a bare CodeMirror with one entry',
    bound: { op: '<=', value: 1.3 },
    quick: false,
    measure: async () => ({ value: await ratio('typing'), unit: 'times' }),
  },
  {
    id: 'journal.1b',
    what: 'wheel to frame in the same journal, 95th percentile, beside the same bare CodeMirror',
    bound: { op: '<=', value: 1.5 },
    quick: false,
    measure: async () => ({ value: await ratio('scrolling'), unit: 'times' }),
  },
]
