/** Figures of following terminals: what is written to a log is soon offered. */
import type { Figure } from './figure.ts'
import { delay, ratio } from './support/follow-speed.ts'

const asLong =
  'from a write to its offer on the screen, two logs at once in Electron, beside a bare watcher window'

export const figures: readonly Figure[] = [
  {
    id: 'terminal.2a',
    what: `time ${asLong}, median`,
    bound: { op: '<=', value: 2 },
    quick: false,
    measure: async () => ({ value: await ratio(0.5), unit: 'times' }),
  },
  {
    id: 'terminal.2b',
    what: `time ${asLong}, 95th percentile`,
    bound: { op: '<=', value: 2 },
    quick: false,
    measure: async () => ({ value: await ratio(0.95), unit: 'times' }),
  },
  ...(['ours', 'bare'] as const).flatMap((of, side) =>
    [0.5, 0.95].map((share, i): Figure => ({
      id: `terminal.2${'cdef'[2 * side + i]!}`,
      what: `the same time ${of === 'ours' ? 'of the program' : 'of the bare watcher'}, ${share === 0.5 ? 'median' : '95th percentile'}`,
      baseline: 'whole milliseconds, with the wait for the frame',
      quick: false,
      measure: async () => ({ value: await delay(of, share), unit: 'ms' }),
    })),
  ),
]
