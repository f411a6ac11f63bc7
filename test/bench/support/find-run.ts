/** Measures one library by itself in a process of its own: `node --expose-gc --import tsx find-run.ts NAME`, prints JSON. */
import { cacmDocuments, cacmQueries } from '../../support/retrieval/collections.ts'
import { averagePrecision, mean } from '../../support/retrieval/measures.ts'
import { documentOf, ENTRIES, SOURCES, speedQueries } from './find-corpus.ts'
import {
  libraryNames,
  makeLibrary,
  type Asked,
  type LibraryName,
  type SearchLibrary,
} from './find-libraries.ts'
import type { LibraryFigures, Times } from './find-speed.ts'

const BATCH = 2_000
const QUERIES = 200
const UPDATES = 100
const LIMIT = 50

const collect = (globalThis as { gc?: () => void }).gc ?? (() => undefined)

function held(): number {
  collect()
  collect()
  const { heapUsed, external } = process.memoryUsage()
  return heapUsed + external
}

async function measure(name: LibraryName): Promise<LibraryFigures> {
  documentOf(0)
  const before = held()
  const library = await makeLibrary(name)
  const buildMs = build(library)
  const bytes = held() - before
  const queries = speedQueries(QUERIES)
  const whole = queries.map(({ words }) => ask(words.join(' '), false, false))
  const typing = queries.map(({ words, beginning }) => ask(`${words[0]} ${beginning}`, true, false))
  const wrong = queries.map(({ misspelt, beginning }) => ask(`${misspelt} ${beginning}`, true, true))
  for (const asked of [whole, typing, wrong]) timesOf(library, asked.slice(0, 30))
  return {
    map: await mapOf(name),
    buildMs,
    bytes,
    whole: timesOf(library, whole),
    typing: timesOf(library, typing),
    wrong: timesOf(library, wrong),
    found: shareFound(library, queries, wrong),
    updateMs: update(library),
    ...reopen(library, whole[0]!),
  }
}

function ask(typed: string, isTyping: boolean, isTolerant: boolean): Asked {
  return { typed, isTyping, isTolerant, limit: LIMIT }
}

function build(library: SearchLibrary): number {
  let spent = 0
  for (let at = 0; at < SOURCES + ENTRIES; at += BATCH) {
    const count = Math.min(BATCH, SOURCES + ENTRIES - at)
    const documents = Array.from({ length: count }, (_, of) => documentOf(at + of))
    spent += timeOf(() => library.add(documents))
  }
  return spent + timeOf(() => library.finish())
}

function timesOf(library: SearchLibrary, asked: readonly Asked[]): Times {
  const times = asked.map((one) => timeOf(() => library.search(one))).sort((one, other) => one - other)
  const at = (share: number): number => times[Math.min(times.length - 1, Math.floor(times.length * share))]!
  return { p50: at(0.5), p95: at(0.95) }
}

/** The share of misspelt queries for which one of the first ten hits holds the word as it is spelt. */
function shareFound(
  library: SearchLibrary,
  queries: ReturnType<typeof speedQueries>,
  wrong: readonly Asked[],
): number {
  const found = queries.filter(({ words }, at) =>
    library
      .search(wrong[at]!)
      .slice(0, 10)
      .some((id) =>
        documentOf(Number(id.replace(/\D/g, '')))
          .text.toLowerCase()
          .includes(words[0]),
      ),
  )
  return found.length / queries.length
}

function update(library: SearchLibrary): number {
  const numbers = Array.from({ length: UPDATES }, (_, at) => SOURCES + at * 997)
  const changes = numbers.map((number) => ({ before: documentOf(number), after: documentOf(number, 1) }))
  return timeOf(() => changes.forEach(({ before, after }) => library.replace(before, after))) / UPDATES
}

function reopen(library: SearchLibrary, first: Asked): Pick<LibraryFigures, 'loadMs' | 'savedBytes'> {
  const saved = library.save()
  const loadMs = timeOf(() => {
    library.load(saved)
    library.search(first)
  })
  return { loadMs, savedBytes: library.sizeOf(saved) }
}

async function mapOf(name: LibraryName): Promise<number> {
  const library = await makeLibrary(name)
  library.add(cacmDocuments())
  library.finish()
  const values = cacmQueries().map(({ typed, relevant }) =>
    averagePrecision(library.search({ ...ask(typed, false, false), limit: 1000 }), relevant),
  )
  return mean(values)
}

/** Time of the processor, which other programs do not lengthen, in milliseconds. */
function timeOf(act: () => void): number {
  const start = process.cpuUsage()
  act()
  const { user, system } = process.cpuUsage(start)
  return (user + system) / 1000
}

const name = libraryNames.find((one) => one === process.argv[2])
if (!name) throw new Error(`no library is called ${String(process.argv[2])}`)
process.stdout.write(`\n${JSON.stringify(await measure(name))}\n`)
