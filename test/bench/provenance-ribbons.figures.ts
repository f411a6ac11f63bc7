/** Figures of provenance on the screen: ribbons follow a pane that scrolls at little more than the cost of drawing them. */
import type { Figure } from './figure.ts'
import { ribbonRatio } from './support/ribbon-speed.ts'

export const figures: readonly Figure[] = [
  {
    id: 'provenance.4',
    what: 'script time of a scrolled frame with 200 links in view, beside drawing the same paths with positions known beforehand',
    bound: { op: '<=', value: 1.5 },
    quick: false,
    measure: async () => ({ value: await ribbonRatio(), unit: 'times' }),
  },
]
