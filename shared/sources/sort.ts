/** In which order a list shows sources. */
import type { SourceFacts } from './facts.ts'

/** `dated` goes by the date that the document states of itself; those that state none come last. */
export const sourceSorts = ['newest', 'oldest', 'title', 'most used', 'dated'] as const
export type SourceSort = (typeof sourceSorts)[number]

type Compare = (a: SourceFacts, b: SourceFacts) => number

const byWords = new Intl.Collator('en', { numeric: true, sensitivity: 'base' })
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
/** Ids grow with time. */
const newest: Compare = (a, b) => compareText(b.source.id, a.source.id)

const compares: Readonly<Record<SourceSort, Compare>> = {
  newest,
  oldest: (a, b) => newest(b, a),
  title: (a, b) => byWords.compare(nameOf(a), nameOf(b)),
  'most used': (a, b) => b.uses - a.uses,
  dated: (a, b) => compareText(b.source.dated ?? '', a.source.dated ?? ''),
}

/** Those that are pinned first, then by the sort, equal ones by when they were added, the last one first. */
export function sortFacts(rows: readonly SourceFacts[], sort: SourceSort): SourceFacts[] {
  const compare = compares[sort]
  return [...rows].sort(
    (a, b) => Number(b.source.pinned) - Number(a.source.pinned) || compare(a, b) || newest(a, b),
  )
}

const nameOf = ({ source }: SourceFacts): string => source.title.trim() || (source.address ?? '')
