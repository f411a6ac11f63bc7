/**
 * A lab of 100,000 entries and 5,000 sources of 8 kB, made of the lines of real manual pages (Debian 12, in STANDARDS_DIR) by
 * a fixed seed. Every text also bears a host, an address, a version and a path of its own, as the texts of a real lab do, so
 * that most of its different words are technical ones.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import type { FindDocument } from '../../../shared/find/document.ts'
import { seededNumbers } from '../../support/drawing.ts'

const ENTRIES = 100_000
const SOURCES = 5_000
const SOURCE_LENGTH = 8_000

const folder = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../../shared/standards')

let pages: readonly (readonly string[])[] | undefined

function pagesOfLines(): readonly (readonly string[])[] {
  if (pages) return pages
  const text = gunzipSync(readFileSync(join(folder, 'ir/manpages/manpages.jsonl.gz'))).toString('utf8')
  pages = text
    .trim()
    .split('\n')
    .map((line) =>
      (JSON.parse(line) as { text: string }).text.split('\n').filter((one) => one.trim().length > 20),
    )
    .filter((lines) => lines.length > 4)
  return pages
}

/** The numbers of the documents of a lab that has this share of them all, sources first: 1 for the whole one. */
export function documentNumbers(share: number): number[] {
  const sources = Array.from({ length: SOURCES * share }, (_, at) => at)
  const entries = Array.from({ length: ENTRIES * share }, (_, at) => SOURCES + at)
  return [...sources, ...entries]
}

/** The document of that number: sources first, then entries. The same for the same number and state. */
export function documentOf(number: number, state = 0): FindDocument {
  const next = seededNumbers((number + 1) * 7919 + state * 104_729)
  for (let warm = 0; warm < 8; warm++) next()
  const isSource = number < SOURCES
  const lines = isSource ? linesOf(SOURCE_LENGTH, next) : linesOf(120 + 300 * next(), next)
  const digits = (most: number): number => Math.floor(next() * most)
  const host = `${['gate', 'mast', 'dome', 'store', 'lab'][digits(5)]!}${digits(400)}.example.org`
  const path = `/srv/${['log', 'data', 'conf', 'boot'][digits(4)]!}/run-${digits(100_000)}/${['a', 'b'][digits(2)]!}.conf`
  const own = `On ${host} at 192.0.2.${digits(256)} version ${digits(9)}.${digits(40)}.${digits(300)} in ${path}`
  return {
    id: `${isSource ? 'source' : 'entry'}/${String(number).padStart(6, '0')}`,
    thing: isSource ? 'source' : 'entry',
    title: isSource ? lines[0]!.trim().slice(0, 60) : '',
    technical: isSource ? [] : [path],
    tags: [],
    text: [...lines, own].join('\n'),
    facts: {
      kind: isSource ? 'page' : 'action',
      projects: [`project-${number % 40}`],
      places: [host],
      moment: Date.UTC(2020, 0, 1) + number * 1_500_000,
      isWithdrawn: false,
    },
  }
}

/** Lines that follow each other, page by page, until they are so long. */
function linesOf(length: number, next: () => number): string[] {
  const all = pagesOfLines()
  const lines: string[] = []
  for (let sum = 0; sum < length;) {
    const page = all[Math.floor(next() * all.length)]!
    for (let at = Math.floor(next() * page.length); at < page.length && sum < length; at++) {
      lines.push(page[at]!)
      sum += page[at]!.length + 1
      if (next() < 0.1) break
    }
  }
  return lines
}

export interface SpeedQuery {
  /** Two words of one document. */
  readonly words: readonly [string, string]
  /** The first one with two letters swapped: no word of the lab. */
  readonly misspelt: string
  /** The beginning of the second one. */
  readonly beginning: string
}

/** Queries of two words that stand in one entry of a lab of that share. */
export function speedQueries(count: number, share: number): SpeedQuery[] {
  const next = seededNumbers(20_250)
  const vocabulary = new Set(pagesOfLines().flatMap((lines) => lines.flatMap(wordsOf)))
  const queries: SpeedQuery[] = []
  while (queries.length < count) {
    const words = wordsOf(documentOf(SOURCES + Math.floor(next() * ENTRIES * share)).text).filter(
      (word) => word.length >= 5,
    )
    const [first, second] = [0, 1].map(() => words[Math.floor(next() * words.length)]!)
    if (first === undefined || second === undefined || first === second) continue
    const at = 1 + Math.floor(next() * (first.length - 2))
    const misspelt = first.slice(0, at) + first[at + 1]! + first[at]! + first.slice(at + 2)
    if (vocabulary.has(misspelt)) continue
    queries.push({
      words: [first, second],
      misspelt,
      beginning: second.slice(0, Math.ceil(second.length * 0.6)),
    })
  }
  return queries
}

function wordsOf(text: string): string[] {
  return (text.match(/(?<![\w./-])[A-Za-z]+(?![\w/-])/g) ?? []).map((word) => word.toLowerCase())
}
