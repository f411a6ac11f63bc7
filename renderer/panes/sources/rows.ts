/** What the list of sources shows, computed from the project's records. */
import type { Source } from '../../../shared/lab/model.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import type { CaptureHead } from '../../../shared/lab/model.ts'
import type { ProjectView } from '../../store/view.ts'
import { sourceKindFaces } from '../../ui/kinds.ts'

export interface SourceRow {
  readonly source: Source
  /** null for a link without text. */
  readonly newest: CaptureHead | null
  /** How many links of this project lead to it or to one of its captures. */
  readonly uses: number
}

type Records = Pick<ProjectView, 'sources' | 'captures' | 'links'>

/** One row for each source of the project, the one that was added last at the head. */
export function sourceRows({ sources, captures, links }: Records): SourceRow[] {
  const newest = new Map<string, CaptureHead>()
  for (const capture of captures.values()) {
    const known = newest.get(capture.source)
    if (!known || known.id < capture.id) newest.set(capture.source, capture)
  }
  const uses = new Map<string, number>()
  for (const { older } of links.values()) {
    const source = older.node.kind === 'capture' ? captures.get(older.node.id)?.source : older.node.id
    if (source !== undefined) uses.set(source, (uses.get(source) ?? 0) + 1)
  }
  return [...sources.values()]
    .sort((a, b) => (a.id < b.id ? 1 : -1))
    .map((source) => ({
      source,
      newest: newest.get(source.id) ?? null,
      uses: uses.get(source.id) ?? 0,
    }))
}

/** The rows in whose title, address or kind every one of the words stands, in any case and with or without accents. */
export function filterRows(rows: readonly SourceRow[], words: string): readonly SourceRow[] {
  const wanted = folded(words)
    .split(/\s+/u)
    .filter((word) => word !== '')
  if (wanted.length === 0) return rows
  return rows.filter(({ source }) => {
    const text = folded([source.title, source.address ?? '', sourceKindFaces[source.kind].word].join('\n'))
    return wanted.every((word) => text.includes(word))
  })
}

/** The lower case of a sigma depends on what follows, so that its two forms are made one. */
const folded = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase()
    .replace(/ς/gu, 'σ')

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** '14 Nov 2026', by the calendar of where it was written. */
export function dayOf(moment: Moment): string {
  return `${Number(moment.slice(8, 10))} ${months[Number(moment.slice(5, 7)) - 1]} ${moment.slice(0, 4)}`
}

/** '14 Nov 2026, 18:31' */
export function dayAndTimeOf(moment: Moment): string {
  return `${dayOf(moment)}, ${moment.slice(11, 16)}`
}

/** The last line of a row: 'Page, added 14 Nov 2026, 3 carried'. */
export function factsOf({ source, uses }: SourceRow): string {
  const { word } = sourceKindFaces[source.kind]
  const carried = uses === 0 ? '' : `, ${uses} carried`
  return `${word}, added ${dayOf(source.added)}${carried}`
}

/** An address as it is shown where there is little room: without its scheme and a last slash. */
export function shortAddress(address: string): string {
  return address.replace(/^https?:\/\//u, '').replace(/\/$/u, '')
}

/** What a source without a title is called. */
export function titleOf(source: Pick<Source, 'title' | 'address'>): string {
  return source.title.trim() || (source.address ? shortAddress(source.address) : 'Untitled source')
}
