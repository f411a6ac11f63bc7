/** Reads links from the lab level by level, as far as a trace goes. */
import type { Link, LinkNode, LinkState } from '../../shared/lab/model.ts'
import type { LinkId } from '../../shared/lab/ids.ts'
import { farEndOf, type LinkRecords, type TraceDirection } from '../../shared/provenance/trace.ts'
import type { Queries } from '../db/queries.ts'

/** What reads the links of one level. */
export type LinkQueries = Pick<Queries, 'linksFrom' | 'linksTo'>

/**
 * All links within reach of some things. Each thing is asked for once.
 * @param most where there are more, reading ends behind the level that goes beyond it; whoever asks sees that by the number
 */
export async function loadLinks(
  queries: LinkQueries,
  starts: readonly LinkNode[],
  direction: TraceDirection,
  most = Infinity,
): Promise<LinkRecords> {
  const links = new Map<string, Link>()
  const states = new Map<LinkId, LinkState>()
  const asked = new Set<string>()
  let level = starts.map(({ id }) => id as string)
  while (level.length > 0 && links.size <= most) {
    for (const id of level) asked.add(id)
    const read = await (direction === 'back' ? queries.linksFrom(level) : queries.linksTo(level))
    for (const link of read.links) links.set(link.id, link)
    for (const state of read.states) states.set(state.link, state)
    const far = read.links.map((link) => farEndOf(link, direction).node.id as string)
    level = [...new Set(far)].filter((id) => !asked.has(id))
  }
  return { links, states }
}
