/** Figures of the logs of terminals. */
import { measureFollowing } from './support/follow-speed.ts'
import type { Figure } from './figure.ts'

export const figures: readonly Figure[] = [
  {
    id: 'terminal.2',
    what: 'from a write to one of two followed logs to its bytes in the page of the real program, beside a bare file watcher',
    bound: { op: '<=', value: 2 },
    quick: false,
    measure: async () => {
      const { page, watcher } = await measureFollowing()
      return { value: page / watcher, unit: 'times' }
    },
  },
]
