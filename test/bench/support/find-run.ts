/**
 * Measures one library by itself in a process of its own and prints JSON:
 * `node --expose-gc --import tsx find-run.ts NAME [SHARE]`, with a share of the lab's documents to try it out.
 */
import { documentNumbers, documentOf, speedQueries, type SpeedQuery } from './find-corpus.ts'
import {
  libraryNames,
  makeLibrary,
  type Asked,
  type LibraryName,
  type SearchLibrary,
} from './find-libraries.ts'
import { mapOf } from './find-map.ts'
import type { LibraryFigures, Times } from './find-speed.ts'

const BATCH = 2_000
const QUERIES = 200
const WARMING = 30
const UPDATES = 100
const LIMIT = 50
/** A library that is slow is asked fewer: as many as it answers in so many ms. */
const MOST_WARMING = 2_000
const MOST_ASKING = 10_000

const collect = (globalThis as { gc?: () => void }).gc ?? (() => undefined)

function held(): number {
  collect()
  collect()
  const { heapUsed, external } = process.memoryUsage()
  return heapUsed + external
}

async function measure(name: LibraryName): Promise<LibraryFigures> {
  documentOf(0)
  const map = await mapOf(name)
  const before = held()
  const library = await makeLibrary(name)
  const buildMs = build(library)
  const bytes = held() - before
  const queries = speedQueries(QUERIES, share)
  const whole = queries.map(({ words }) => ask(words.join(' '), false, false))
  const typing = queries.map(({ words, beginning }) => ask(`${words[0]} ${beginning}`, true, false))
  const wrong = queries.map(({ misspelt, beginning }) => ask(`${misspelt} ${beginning}`, true, true))
  for (const asked of [whole, typing, wrong]) askAll(library, asked.slice(0, WARMING), MOST_WARMING)
  const answers = askAll(library, wrong)
  return {
    map,
    buildMs,
    bytes,
    whole: toTimes(askAll(library, whole)),
    typing: toTimes(askAll(library, typing)),
    wrong: toTimes(answers),
    found: shareFound(queries, answers),
    updateMs: update(library),
    ...reopen(library, whole[0]!),
  }
}

function ask(typed: string, isTyping: boolean, isTolerant: boolean): Asked {
  return { typed, isTyping, isTolerant, limit: LIMIT }
}

function build(library: SearchLibrary): number {
  let spent = 0
  const numbers = documentNumbers(share)
  for (let at = 0; at < numbers.length; at += BATCH) {
    const documents = numbers.slice(at, at + BATCH).map((number) => documentOf(number))
    spent += timeOf(() => library.add(documents))
  }
  return spent + timeOf(() => library.finish())
}

interface Answer {
  readonly ms: number
  readonly ids: readonly string[]
}

/** In order, until all are answered or the time is spent. */
function askAll(library: SearchLibrary, asked: readonly Asked[], most = MOST_ASKING): Answer[] {
  const answers: Answer[] = []
  let left = most
  for (const one of asked) {
    let ids: readonly string[] = []
    const ms = timeOf(() => (ids = library.search(one)))
    answers.push({ ms, ids })
    if ((left -= ms) < 0) break
  }
  return answers
}

function toTimes(answers: readonly Answer[]): Times {
  const times = answers.map(({ ms }) => ms).sort((one, other) => one - other)
  const at = (part: number): number => times[Math.min(times.length - 1, Math.floor(times.length * part))]!
  return { p50: at(0.5), p95: at(0.95), asked: times.length }
}

/** The share of misspelt queries for which one of the first ten hits holds the word as it is spelt. */
function shareFound(queries: readonly SpeedQuery[], answers: readonly Answer[]): number {
  const found = answers.filter(({ ids }, at) =>
    ids.slice(0, 10).some((id) =>
      documentOf(Number(id.replace(/\D/g, '')))
        .text.toLowerCase()
        .includes(queries[at]!.words[0]),
    ),
  )
  return found.length / answers.length
}

function update(library: SearchLibrary): number {
  const all = documentNumbers(share)
  const numbers = Array.from({ length: UPDATES }, (_, at) => all[all.length - 1 - at * 19]!)
  const changes = numbers.map((number) => ({ before: documentOf(number), after: documentOf(number, 1) }))
  return timeOf(() => changes.forEach(({ before, after }) => library.replace(before, after))) / UPDATES
}

function reopen(library: SearchLibrary, first: Asked): Pick<LibraryFigures, 'loadMs' | 'savedBytes'> {
  const saved = maybeSaved(library)
  if (saved === null) return { loadMs: null, savedBytes: null }
  const loadMs = timeOf(() => {
    library.load(saved)
    library.search(first)
  })
  return { loadMs, savedBytes: library.sizeOf(saved) }
}

/** null for an index that is longer as one text than a text can be. */
function maybeSaved(library: SearchLibrary): unknown {
  try {
    return library.save()
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

/** Time of the processor, which other programs do not lengthen much, in milliseconds. */
function timeOf(act: () => void): number {
  const start = process.cpuUsage()
  act()
  const { user, system } = process.cpuUsage(start)
  return (user + system) / 1000
}

const share = Number(process.argv[3] ?? 1)
const name = libraryNames.find((one) => one === process.argv[2])
if (!name) throw new Error(`no library is called ${String(process.argv[2])}`)
process.stdout.write(`\n${JSON.stringify(await measure(name))}\n`)
