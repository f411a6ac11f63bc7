/** Figures of provenance: tracing in a lab with many links. */
import { join } from 'node:path'
import type { Figure } from './figure.ts'
import { inPage } from './support/page.ts'
import type { Beside, Measured } from './support/trace-walks.ts'

declare global {
  var measureTraces: () => Promise<Measured>
}

let known: Promise<Measured> | undefined
const measured = (): Promise<Measured> =>
  (known ??= inPage(join(import.meta.dirname, 'support/trace-walks.ts'), (page) =>
    page.evaluate(() => globalThis.measureTraces()),
  ))

async function times(of: (all: Measured) => Beside): Promise<{ value: number; unit: string }> {
  const { ours, plain } = of(await measured())
  return { value: ours / plain, unit: 'times' }
}

export const figures: readonly Figure[] = [
  {
    id: 'provenance.5',
    what: 'a trace of 3 hops over 200,000 links as it is shown (the index asked, the nearest 120 links read from the store with words and names), beside a plain walk over them in memory',
    bound: { op: '<=', value: 3 },
    quick: false,
    measure: () => times(({ hub }) => hub),
  },
  {
    id: 'provenance.5b',
    what: 'walking 3 hops from 100 sources and parts in the index of a lab of 200,000 links, beside a plain walk in memory',
    bound: { op: '<=', value: 3 },
    quick: false,
    measure: () => times(({ walk }) => walk),
  },
  {
    id: 'provenance.5c',
    what: 'the same 100 traces as they are shown, beside a plain walk that reads the same links and things from the same store by their keys',
    baseline: 'no names made, no chains followed by their words',
    quick: false,
    measure: () => times(({ shown }) => shown),
  },
  {
    id: 'provenance.5d',
    what: 'one of these traces as it is shown, on average',
    baseline: 'milliseconds of the machine that measured',
    quick: false,
    measure: async () => ({ value: (await measured()).shown.ours / 100, unit: 'ms' }),
  },
  {
    id: 'provenance.5e',
    what: 'reading the index of 200,000 links for the first time, a thousand at a time, beside reading all links at once',
    baseline: 'in the program it is read in a worker, once',
    quick: false,
    measure: () => times(({ first }) => first),
  },
]
