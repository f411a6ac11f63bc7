/**
 * Figures of finding: ranking on public collections, and speed beside other search libraries in one run. All libraries hold
 * the same 100,000 entries and 5,000 sources of 8 kB and answer the same 200 queries of two words, each in a process of its
 * own; times are of the processor. Figures of one library are measured together, once. Takes about seven minutes.
 *
 * A library that is quick because it ranks badly is no rival. As they come, all of them rank CACM worse than we do by more
 * than .005, so that they are measured once more with our words (split, stemmed, a title's three times) and our k1 and b, as
 * far as these can be set: so SQLite and minisearch come as high. Orama does not, since it counts a word's share of the text
 * in the place of how often it stands there; and SQLite that asks for all words is quick, but finds few texts for a question.
 */
import { mean } from '../support/retrieval/measures.ts'
import { resultsOf, type RankerName, type Results } from '../support/retrieval/results.ts'
import type { Figure } from './figure.ts'
import type { LibraryName } from './support/find-libraries.ts'
import { mapOf } from './support/find-map.ts'
import { figuresOf, type LibraryFigures } from './support/find-speed.ts'
import { pairedRandomisation } from './support/tags.ts'

const anserini = 'https://github.com/castorini/anserini, regressions of CACM'
const floors = 'a plain BM25 over the same pages'

/** Those that find both beginnings and misspelt words. */
const inWords = {
  fts5: 'SQLite FTS5 in WebAssembly',
  'fts5 all words': 'FTS5 asking for all words',
  'fts5 our words': 'FTS5 with our words',
  minisearch: 'minisearch',
  'minisearch our words': 'minisearch with our words',
  orama: 'Orama',
} as const satisfies Partial<Record<LibraryName, string>>
type Other = keyof typeof inWords
const others = Object.keys(inWords) as Other[]

/** Average precisions that differ by no more are equal. */
const EQUAL = 0.005

function said(name: RankerName, measure: keyof Results): string {
  return mean(resultsOf(name)[measure]).toFixed(4)
}

function beside(measure: keyof Results): string {
  const names = ['with meaning', 'bare library', 'plain BM25'] as const
  return names.map((name) => `${name} ${said(name, measure)}`).join(', ')
}

function ranking(id: string, what: string, measure: keyof Results, bound: number, source: string): Figure {
  return {
    id,
    what,
    bound: { op: '>=', value: bound },
    get baseline() {
      return beside(measure)
    },
    source,
    quick: false,
    measure: async () => ({ value: mean(resultsOf('ours')[measure]), unit: '' }),
  }
}

function besideLibraries(value: (of: LibraryFigures) => number | null, unit: string): string {
  const values = others.map(
    (name) => `${inWords[name]} ${value(figuresOf(name))?.toPrecision(3) ?? 'too much for one text'}`,
  )
  return `${values.join(', ')}${unit === '' ? '' : ` ${unit}`}`
}

function plain(id: string, what: string, unit: string, value: (of: LibraryFigures) => number | null): Figure {
  return {
    id,
    what,
    get baseline() {
      return besideLibraries(value, unit)
    },
    quick: false,
    measure: async () => ({ value: value(figuresOf('ours')) ?? NaN, unit }),
  }
}

/** The fastest of those that rank as well as we do, or better. */
function fastestEqual(of: (figures: LibraryFigures) => number): number {
  const least = figuresOf('ours').map - EQUAL
  return Math.min(...others.map(figuresOf).flatMap((figures) => (figures.map >= least ? [of(figures)] : [])))
}

const megabytes = 1e6

export const figures: readonly Figure[] = [
  ranking('find.1', 'MAP on CACM, as it ships', 'averagePrecision', 0.305, anserini),
  ranking('find.1b', 'P30 on CACM, as it ships', 'p30', 0.189, anserini),
  ranking('find.1c', 'MRR of NAME lines for their manual pages', 'nameLine', 0.609, floors),
  ranking('find.1d', 'MRR of requests for manual pages', 'request', 0.275, floors),
  {
    id: 'find.2',
    what: 'chance that requests with meaning, which does not ship, differ as much by luck (its constants were chosen elsewhere)',
    get baseline() {
      return `MRR ${said('with meaning', 'request')} with it, ${said('ours', 'request')} without`
    },
    quick: false,
    measure: async () => ({
      value: pairedRandomisation(resultsOf('with meaning').request, resultsOf('ours').request),
      unit: '',
    }),
  },
  {
    id: 'find.3',
    what: 'p95 of two words, one misspelt, one a beginning, as a multiple of the fastest library that finds both at equal MAP',
    bound: { op: '<=', value: 2 },
    quick: false,
    measure: async () => ({
      value: figuresOf('ours').wrong.p95 / fastestEqual(({ wrong }) => wrong.p95),
      unit: '',
    }),
  },
  {
    id: 'find.3b',
    what: 'the same, one a beginning, none misspelt',
    quick: false,
    measure: async () => ({
      value: figuresOf('ours').typing.p95 / fastestEqual(({ typing }) => typing.p95),
      unit: '',
    }),
  },
  {
    id: 'find.3c',
    what: 'as find.3, of the fastest that finds both, however badly it ranks',
    quick: false,
    measure: async () => ({
      value: figuresOf('ours').wrong.p95 / Math.min(...others.map((name) => figuresOf(name).wrong.p95)),
      unit: '',
    }),
  },
  plain('find.3d', 'MAP on CACM of the same set-up', '', ({ map }) => map),
  {
    id: 'find.3e',
    what: 'MAP on CACM of Orama with our words',
    quick: false,
    measure: async () => ({ value: await mapOf('orama our words'), unit: '' }),
  },
  plain('find.4', 'one misspelt, one a beginning: p50', 'ms', ({ wrong }) => wrong.p50),
  plain('find.4b', 'one misspelt, one a beginning: p95', 'ms', ({ wrong }) => wrong.p95),
  plain('find.4c', 'one a beginning: p50', 'ms', ({ typing }) => typing.p50),
  plain('find.4d', 'one a beginning: p95', 'ms', ({ typing }) => typing.p95),
  plain('find.4e', 'two whole words: p50', 'ms', ({ whole }) => whole.p50),
  plain('find.4f', 'two whole words: p95', 'ms', ({ whole }) => whole.p95),
  plain(
    'find.4h',
    'queries asked for find.4, as many as were answered in ten seconds',
    '',
    ({ wrong }) => wrong.asked,
  ),
  plain('find.4g', 'misspelt words found among the first ten hits', '', ({ found }) => found),
  plain('find.5', 'building', 's', ({ buildMs }) => buildMs / 1000),
  plain('find.5b', 'one changed entry', 'ms', ({ updateMs }) => updateMs),
  plain('find.5c', 'from what was kept to the first answer', 'ms', ({ loadMs }) => loadMs),
  plain('find.5d', 'memory', 'MB', ({ bytes }) => bytes / megabytes),
  plain('find.5e', 'kept bytes', 'MB', ({ savedBytes }) => savedBytes && savedBytes / megabytes),
]
