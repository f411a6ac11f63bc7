/** From rows to blocks: paragraphs, headings, lists, code and lines that stand alone. */
import type { Flow, OutlineItem, Page, Row } from './page.ts'
import { median } from './row.ts'

/** A row with the page that it stands on. */
export interface PlacedRow {
  readonly row: Row
  /** 0-based. */
  readonly page: number
}

/** `lines` keep their line ends: tables and lists of contents. */
export interface Block {
  readonly kind: 'paragraph' | 'heading' | 'item' | 'code' | 'lines'
  /** Of a heading, 1 to 6. */
  readonly level: number
  readonly rows: readonly PlacedRow[]
}

/** What sizes and gaps are usual in a document. */
interface Habits {
  readonly size: number
  /** From baseline to baseline within a paragraph, by size. */
  readonly pitches: ReadonlyMap<number, number>
  readonly headings: ReadonlyMap<Row, number>
}

interface Draft {
  kind: Block['kind']
  level: number
  rows: PlacedRow[]
  flow: Flow
}

/** All blocks of a document, in order. */
export function toBlocks(pages: readonly Page[], outline: readonly OutlineItem[]): readonly Block[] {
  const habits = habitsOf(pages, outline)
  const drafts: Draft[] = []
  for (const [page, { flows }] of pages.entries())
    for (const flow of flows)
      for (const row of flow.rows) {
        const draft = drafts.at(-1)
        const kind = kindOf(row, habits, draft)
        const level = habits.headings.get(row) ?? 0
        if (draft && goesOn(draft, kind, level, row, flow, habits)) draft.rows.push({ row, page })
        else drafts.push({ kind, level, rows: [{ row, page }], flow })
        drafts.at(-1)!.flow = flow
      }
  return drafts
}

const bullet = /^[•‣◦▪■●○∙·⁃\uf0b7\uf0a7]\s+(?=\S)/u

/** What a row would begin. A single row of code words at the end of a full line is part of its sentence. */
function kindOf(row: Row, habits: Habits, draft: Draft | undefined): Block['kind'] {
  if (habits.headings.has(row)) return 'heading'
  if (row.isMono) return isWithinSentence(row, draft, habits) ? draft!.kind : 'code'
  if (bullet.test(row.text)) return 'item'
  return row.isTabular ? 'lines' : 'paragraph'
}

function isWithinSentence(row: Row, draft: Draft | undefined, habits: Habits): boolean {
  if (!draft || (draft.kind !== 'paragraph' && draft.kind !== 'item')) return false
  const last = draft.rows.at(-1)!.row
  const isClose = row.y > last.y && row.y - last.y < pitchOf(last, habits) * 1.2
  const isAligned = Math.abs(row.left - last.left) < row.size * 0.3
  return isClose && isAligned && last.right + widthOfFirstWord(row) > draft.flow.right - row.size
}

function goesOn(
  draft: Draft,
  kind: Block['kind'],
  level: number,
  row: Row,
  flow: Flow,
  habits: Habits,
): boolean {
  const last = draft.rows.at(-1)!.row
  const isBelow = draft.flow === flow
  const gap = row.y - last.y
  switch (draft.kind) {
    case 'heading':
      return (
        kind === 'heading' &&
        isBelow &&
        level === draft.level &&
        row.size === last.size &&
        gap < row.size * 1.5 &&
        !isNewEntry(row)
      )
    case 'code':
      return kind === 'code' && (!isBelow || gap < pitchOf(row, habits) * 4)
    case 'lines':
      return kind === 'lines' && row.size === last.size && isBelow && gap < pitchOf(row, habits) * 1.8
    default:
      if (kind !== 'paragraph' && kind !== draft.kind) return false
      if (kind === 'item' && bullet.test(row.text)) return false
      if (Math.abs(row.size - last.size) > 0.6) return false
      return isBelow ? isSameParagraph(draft, row, habits) : isCarriedOn(last, row)
  }
}

/** Two numbered headings may follow each other: "4 Rack" and "4.1 Power". */
function isNewEntry(row: Row): boolean {
  return /^(?:\d+\.)*\d+\.?\s/u.test(row.text)
}

/** So many lines tell a paragraph's margin. */
const looked = 50

function isSameParagraph(draft: Draft, row: Row, habits: Habits): boolean {
  const last = draft.rows.at(-1)!.row
  const gap = row.y - last.y
  if (gap > pitchOf(last, habits) * 1.2 || gap <= 0) return false
  // The next word would have fitted: whoever wrote it ended the line.
  if (last.right + widthOfFirstWord(row) + last.size * 1.2 < draft.flow.right && !endsInHyphen(last.text))
    return false
  if (draft.rows.length < 2) return true
  const left = Math.min(
    ...draft.rows
      .slice(1)
      .slice(-looked)
      .map((one) => one.row.left),
  )
  return Math.abs(row.left - left) < row.size * 0.9
}

/** Onto the next column or page a paragraph goes only where its words say so. */
function isCarriedOn(last: Row, row: Row): boolean {
  if (row.isTabular || bullet.test(row.text)) return false
  return endsInHyphen(last.text) || (!/[.:;!?…)\]”"»]$/u.test(last.text) && /^[\p{Ll}(]/u.test(row.text))
}

function endsInHyphen(text: string): boolean {
  return /\p{L}[-\u00ad\u2010]$/u.test(text)
}

function widthOfFirstWord(row: Row): number {
  const word = /^\S+/u.exec(row.text)?.[0].length ?? 0
  return ((row.right - row.left) * word) / Math.max(1, row.text.length)
}

function pitchOf(row: Row, { pitches }: Habits): number {
  return pitches.get(Math.round(row.size)) ?? row.size * 1.2
}

function habitsOf(pages: readonly Page[], outline: readonly OutlineItem[]): Habits {
  const rows = pages.flatMap(({ flows }) => flows.flatMap((flow) => flow.rows))
  const lengths = new Map<number, number>()
  for (const { size, text, isMono } of rows)
    if (!isMono) lengths.set(size, (lengths.get(size) ?? 0) + text.length)
  const size = [...lengths].reduce((one, other) => (other[1] > one[1] ? other : one), [0, 0])[0]
  return { size, pitches: pitchesOf(pages), headings: headingsOf(pages, outline, size) }
}

/** Gaps between rows of one size; the most frequent one is that within paragraphs. */
function pitchesOf(pages: readonly Page[]): ReadonlyMap<number, number> {
  const gaps = new Map<number, number[]>()
  for (const { flows } of pages)
    for (const { rows } of flows)
      for (let i = 1; i < rows.length; i += 1) {
        const [one, other] = [rows[i - 1]!, rows[i]!]
        const gap = other.y - one.y
        if (Math.abs(one.size - other.size) > 0.6 || gap > one.size * 2.2) continue
        const size = Math.round(one.size)
        const known = gaps.get(size)
        if (known) known.push(gap)
        else gaps.set(size, [gap])
      }
  return new Map([...gaps].map(([size, list]) => [size, mostFrequent(list)]))
}

function mostFrequent(gaps: readonly number[]): number {
  const counts = new Map<number, number>()
  for (const gap of gaps) counts.set(Math.round(gap * 2), (counts.get(Math.round(gap * 2)) ?? 0) + 1)
  const best = [...counts].reduce((one, other) => (other[1] > one[1] ? other : one))[0]
  return median(gaps.filter((gap) => Math.round(gap * 2) === best))
}

/** In sizes of the usual text. */
const headingSize = 1.14
const longestHeading = 200

/**
 * Headings and their levels: rows that the outline names on their page, and rows in clearly larger type. Where a large
 * share of a document is set large, as in slides, size says nothing.
 */
function headingsOf(
  pages: readonly Page[],
  outline: readonly OutlineItem[],
  size: number,
): ReadonlyMap<Row, number> {
  const headings = new Map<Row, number>()
  const levels = new Map<number, number>()
  for (const item of outline) {
    const rows = maybeNamedRows(pages[item.page], item.title)
    for (const row of rows ?? []) {
      headings.set(row, Math.min(6, item.depth))
      levels.set(row.size, Math.min(levels.get(row.size) ?? 6, item.depth))
    }
  }
  const all = pages.flatMap(({ flows }) => flows.flatMap(({ rows }) => rows))
  const large = all.filter((row) => isLarge(row, size) && !headings.has(row))
  const length = (rows: readonly Row[]): number => rows.reduce((sum, { text }) => sum + text.length, 0)
  if (length(large) > length(all) * 0.25) return headings
  const sizes = [...new Set(large.map((row) => row.size))].sort((a, b) => b - a)
  for (const row of large) headings.set(row, levels.get(row.size) ?? Math.min(4, sizes.indexOf(row.size) + 1))
  return headings
}

function isLarge(row: Row, size: number): boolean {
  return (
    row.size >= size * headingSize &&
    !row.isMono &&
    row.text.length <= longestHeading &&
    /\p{L}/u.test(row.text)
  )
}

/** One to three rows whose words are the title's, with a number before them or without. */
function maybeNamedRows(page: Page | undefined, title: string): readonly Row[] | undefined {
  const wanted = bare(title)
  if (wanted === '') return undefined
  for (const { rows } of page?.flows ?? [])
    for (let i = 0; i < rows.length; i += 1)
      for (let count = 1; count <= 3 && i + count <= rows.length; count += 1) {
        const found = rows.slice(i, i + count)
        if (found.some(({ isTabular, text }) => isTabular && text.length > 60)) break
        const words = bare(found.map(({ text }) => text).join(' '))
        if (words.length > wanted.length + 24) break
        if (words === wanted || (words.endsWith(wanted) && isNumber(words.slice(0, -wanted.length))))
          return found
      }
  return undefined
}

function bare(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '')
}

function isNumber(words: string): boolean {
  return /^(?:chapter|appendix|section|part)?(?:[a-z]?\d*|[ivxlc]+)$/u.test(words)
}
