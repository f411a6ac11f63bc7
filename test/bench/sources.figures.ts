/** Figures of the sources: what it takes to bring them in, to sort them and to find them again. */
import type { Figure } from './figure.ts'
import { slowdownOfKeys } from './support/folder-typing.ts'
import { orderTimes } from './support/order-speed.ts'
import { bestBaseline, hasDebtags, meanOf, pairedRandomisation, scoresAfter, sizes } from './support/tags.ts'
import { slowdown } from './support/tags-speed.ts'

const debtags = 'Debian 12 debtags, 1,254 texts for learning, 1,255 for testing'

/** Tags suggested after so many tagged texts, beside what the three plain ways reach. */
const f1Figures = sizes.map(({ learnt, draws }, at): Figure => {
  const drawn = draws === 1 ? '' : `, mean of ${draws} draws`
  return {
    id: `sources.4${'abcd'[at]!}`,
    what: `F1 at 7 of suggested tags after ${learnt} tagged texts${drawn}`,
    bound: { op: '>=', value: [0.355, 0.43, 0.49, 0.54][at]! },
    source: debtags,
    quick: hasDebtags && learnt === 1254,
    measure: () => Promise.resolve({ value: meanOf(scoresAfter(learnt).ours), unit: '' }),
  }
})

/** The least that is asked for: never below the best plain way. */
const ratioFigures = sizes.map(({ learnt }, at): Figure => {
  return {
    id: `sources.4${'efgh'[at]!}`,
    what: `the same F1 as a multiple of the best plain way's, ${learnt} texts`,
    bound: { op: '>=', value: learnt === 1254 ? 1.02 : 1 },
    source: debtags,
    quick: hasDebtags && learnt === 1254,
    measure: () => {
      const scores = scoresAfter(learnt)
      return Promise.resolve({
        value: meanOf(scores.ours) / meanOf(scores[bestBaseline(scores)]),
        unit: '',
      })
    },
  }
})

const chanceFigures = sizes.map(({ learnt }, at): Figure => {
  return {
    id: `sources.4${'ijkl'[at]!}`,
    what: `chance of so great a difference from the best plain way, paired randomisation test over the texts, ${learnt} texts`,
    ...(learnt === 1254 ? { bound: { op: '<=', value: 0.01 } } : { baseline: 'two-sided, 9,999 flips' }),
    source: debtags,
    quick: hasDebtags && learnt === 1254,
    measure: () => {
      const scores = scoresAfter(learnt)
      return Promise.resolve({
        value: pairedRandomisation(scores.ours, scores[bestBaseline(scores)]),
        unit: '',
      })
    },
  }
})

const baselineFigures = sizes.flatMap(({ learnt }, at): Figure[] => {
  const of = (letter: string, what: string, baseline: string, value: () => number): Figure => ({
    id: `sources.4${letter}`,
    what: `${what}, ${learnt} texts`,
    baseline,
    source: debtags,
    quick: false,
    measure: () => Promise.resolve({ value: value(), unit: '' }),
  })
  return [
    of('mnop'[at]!, 'F1 at 7 of the most used tags', 'plain way', () =>
      meanOf(scoresAfter(learnt)['most used']),
    ),
    of('qrst'[at]!, 'F1 at 7 of plain nearest neighbours', 'plain way', () =>
      meanOf(scoresAfter(learnt).nearest),
    ),
    of(
      'uvwx'[at]!,
      'F1 at 7 of TF-IDF key phrases',
      'plain way; a phrase counts that says the last part',
      () => meanOf(scoresAfter(learnt).phrases),
    ),
  ]
})

const typing = ([0.5, 0.95] as const).map((share, at): Figure => {
  return {
    id: `sources.1${'ab'[at]!}`,
    what: `key to frame in the composer while a folder of 326 real files comes in, as a multiple of that at rest, ${share === 0.5 ? 'median' : '95th percentile'}`,
    bound: { op: '<=', value: 3 },
    quick: false,
    measure: async () => ({ value: await slowdownOfKeys(share), unit: '' }),
  }
})

const speed: Figure = {
  id: 'sources.4y',
  what: 'time of a suggestion against 5,000 tagged pages, as a multiple of that against 500',
  bound: { op: '<=', value: 20 },
  quick: false,
  measure: () => Promise.resolve({ value: slowdown(500, 5000), unit: '' }),
}

const order: readonly Figure[] = [
  {
    id: 'sources.7a',
    what: 'time of one pass that filters and counts every choice over 5,000 sources, as a multiple of that over 500',
    bound: { op: '<=', value: 30 },
    quick: false,
    measure: () => {
      // Once before, so that both are measured as the engine's compiler leaves them.
      orderTimes(5000)
      return Promise.resolve({ value: orderTimes(5000).pass / orderTimes(500).pass, unit: '' })
    },
  },
  {
    id: 'sources.7b',
    what: 'the same pass over 5,000 sources',
    baseline: 'a frame at 60 Hz is 16.7 ms',
    quick: false,
    measure: () => Promise.resolve({ value: orderTimes(5000).pass, unit: 'ms' }),
  },
  {
    id: 'sources.7c',
    what: 'gathering, comparing and sorting 5,000 sources after a Change',
    baseline: 'once for each Change to a source, not for each key',
    quick: false,
    measure: () => Promise.resolve({ value: orderTimes(5000).gather, unit: 'ms' }),
  },
]

export const figures: readonly Figure[] = [
  ...f1Figures,
  ...ratioFigures,
  ...chanceFigures,
  ...baselineFigures,
  ...typing,
  speed,
  ...order,
].sort((one, other) => (one.id < other.id ? -1 : 1))
