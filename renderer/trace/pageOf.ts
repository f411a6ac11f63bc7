import type { TraceHop } from '../../shared/provenance/trace.ts'
import { pageWords } from '../../shared/sources/pages.ts'
import type { NodeLabel } from './loadTrace.ts'

/** On which page of a paged document the carried words stood: 'Page 12'. null for every other thing. */
export function pageOf({ link }: Pick<TraceHop, 'link'>, older: Pick<NodeLabel, 'pages'>): string | null {
  const words = pageWords(
    older.pages ?? [],
    link.older.ranges.map(({ position }) => position),
  )
  return words === null ? null : `${words.charAt(0).toUpperCase()}${words.slice(1)}`
}
