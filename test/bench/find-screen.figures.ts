/** Figures of the box: it adds no more to finding than finding and drawing take themselves. */
import type { Figure } from './figure.ts'
import { findScreenRatio, findScreenWords } from './support/find-screen.ts'

const beside = 'beside the bare index asked for the same and one frame in the same browser'
let words = ''

export const figures: readonly Figure[] = [
  {
    id: 'find.10',
    what: `last key to marked words in a lab of 10,000 entries, median, ${beside}`,
    bound: { op: '<=', value: 2 },
    get baseline() {
      return words
    },
    quick: false,
    measure: async () => {
      words = await findScreenWords()
      return { value: await findScreenRatio(0.5), unit: 'times' }
    },
  },
  {
    id: 'find.10b',
    what: 'the same at the 95th percentile, which other work on the machine lengthens',
    baseline: 'no bound: the frame beside it does not grow with what else the machine does',
    quick: false,
    measure: async () => ({ value: await findScreenRatio(0.95), unit: 'times' }),
  },
]
