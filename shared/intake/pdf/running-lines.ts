/** Lines that stand at the head or the foot of most pages: titles that run along, and the page's number. */
import { toOneLine } from '../../markdown/words.ts'
import { toTitle } from '../text.ts'
import type { Flow, Page, Row } from './page.ts'
import { median } from './row.ts'

export interface Freed {
  readonly pages: readonly Page[]
  /** Sentences about what was left out. */
  readonly notes: readonly string[]
}

interface Candidate {
  readonly page: number
  readonly row: Row
  /** Its words, with all numbers alike. */
  readonly form: string
  /** Its height on the page, so coarse that a line which moves a little keeps it. */
  readonly band: number
}

/** So many lines from either end of a page may run along. */
const depth = 3

/**
 * Takes these lines out. One runs along when lines at its height stand on most pages, and its own words, numbers apart,
 * stand there on a page near by, or on most pages.
 */
export function withoutRunningLines(pages: readonly Page[]): Freed {
  const written = pages.filter(({ flows }) => flows.length > 0).length
  if (written < 3) return { pages, notes: [] }
  const size = median(pages.flatMap(({ flows }) => flows.flatMap(({ rows }) => rows.map((row) => row.size))))
  const candidates = pages
    .flatMap(({ flows }, page) => candidatesOf(flows, page))
    // In large type stands what belongs to the text, even where each page begins with it.
    .filter(({ row }) => row.size < size * 1.14)
  const byBand = groupBy(candidates, ({ band }) => String(band))
  const running = new Set<Row>()
  const forms = new Map<string, { count: number; readonly words: string }>()
  for (const group of byBand.values()) {
    const repeated = group.filter((one) => isRepeated(one, group))
    if (new Set(repeated.map(({ page }) => page)).size < written / 2) continue
    for (const { row, form } of repeated) {
      running.add(row)
      const known = forms.get(form)
      if (known) known.count += 1
      else forms.set(form, { count: 1, words: row.text })
    }
  }
  const all = pages.reduce(
    (sum, { flows }) => sum + flows.reduce((count, { rows }) => count + rows.length, 0),
    0,
  )
  if (running.size === 0 || running.size === all) return { pages, notes: [] }
  const freed = pages.map(({ flows }) => ({
    flows: flows
      .map((flow): Flow => ({ ...flow, rows: flow.rows.filter((row) => !running.has(row)) }))
      .filter(({ rows }) => rows.length > 0),
  }))
  return { pages: freed, notes: [noteOf(running.size, forms)] }
}

function candidatesOf(flows: readonly Flow[], page: number): readonly Candidate[] {
  const rows = flows.flatMap(({ rows }) => rows).sort((a, b) => a.y - b.y)
  const ends = new Set([...outside(rows), ...outside([...rows].reverse())])
  return [...ends].map((row) => ({ page, row, form: formOf(row.text), band: Math.round(row.y / 6) }))
}

/** In sizes of its type: so far from the text stands what runs along. */
const apart = 1.7

/** Those of the first lines that a white band parts from all others. */
function outside(rows: readonly Row[]): readonly Row[] {
  for (let count = Math.min(depth, rows.length - 1); count > 0; count -= 1) {
    const [last, next] = [rows[count - 1]!, rows[count]!]
    if (Math.abs(next.y - last.y) > apart * Math.max(last.size, next.size)) return rows.slice(0, count)
  }
  return rows.length === 1 ? rows : []
}

/** Numbers of pages, of which roman ones stand at an end, are all the same. */
function formOf(text: string): string {
  return toOneLine(text)
    .replace(/\d+/gu, '#')
    .replace(/(?:^|(?<=\s))[ivxlc]+$|^[ivxlc]+(?=\s|$)/u, '#')
    .toLowerCase()
}

/** Left and right pages differ, so a line's like may stand two pages on. */
function isRepeated(one: Candidate, group: readonly Candidate[]): boolean {
  return group.some(
    (other) =>
      other.page !== one.page && Math.abs(other.page - one.page) <= 2 && isAlike(one.form, other.form),
  )
}

/** The number may stand before the words on one side and behind them on the other. */
function isAlike(one: string, other: string): boolean {
  const words = (form: string): string => form.replace(/#/gu, ' ').replace(/\s+/gu, ' ').trim()
  return one === other || (words(one) === words(other) && one.includes('#') === other.includes('#'))
}

function groupBy(
  candidates: readonly Candidate[],
  keyOf: (one: Candidate) => string,
): Map<string, Candidate[]> {
  const groups = new Map<string, Candidate[]>()
  for (const one of candidates) {
    const group = groups.get(keyOf(one))
    if (group) group.push(one)
    else groups.set(keyOf(one), [one])
  }
  return groups
}

function noteOf(
  lines: number,
  forms: ReadonlyMap<string, { readonly count: number; readonly words: string }>,
): string {
  const words = [...forms.values()]
    .filter((one) => /\p{L}{2}/u.test(one.words))
    .sort((a, b) => b.count - a.count)
    .slice(0, 3)
    .map((one) => `“${toTitle(one.words.slice(0, 80))}”`)
  const which = words.length > 0 ? `, such as ${words.join(', ')}` : ''
  return `Left out: ${lines} lines that stand at the head or foot of most pages${which}.`
}
