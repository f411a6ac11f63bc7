/** Where entries came from and what came of them, looked up by entry. */
import type { Link, LinkNode, LinkState, Range } from '../../../shared/lab/model.ts'
import type { ProjectView } from '../../store/view.ts'

export interface LinkIndex {
  /** By the newer end: what a text came from. */
  readonly from: ReadonlyMap<string, readonly Link[]>
  /** By the older end: what came of it. */
  readonly to: ReadonlyMap<string, readonly Link[]>
}

const known = new WeakMap<ProjectView['links'], LinkIndex>()

/** The links of a project by both ends. Made once for each state of the links. */
export function linkIndexOf(links: ProjectView['links']): LinkIndex {
  const made = known.get(links)
  if (made) return made
  const from = new Map<string, Link[]>()
  const to = new Map<string, Link[]>()
  for (const link of links.values()) {
    add(from, link.newer.node.id, link)
    add(to, link.older.node.id, link)
  }
  const index = { from, to }
  known.set(links, index)
  return index
}

function add(index: Map<string, Link[]>, node: string, link: Link): void {
  const links = index.get(node)
  if (links) links.push(link)
  else index.set(node, [link])
}

type Named = Pick<ProjectView, 'captures' | 'sources' | 'entries'>

/** What the older end of a link is called. */
export function nameOfOlder(view: Named, node: LinkNode): string {
  switch (node.kind) {
    case 'source':
      return view.sources.get(node.id)?.title || 'a source'
    case 'capture': {
      const capture = view.captures.get(node.id)
      return (capture && view.sources.get(capture.source)?.title) || 'a source'
    }
    case 'entry': {
      const entry = view.entries.get(node.id)
      return entry ? `${entry.kind} of ${entry.moment.slice(11, 16)}` : 'an entry'
    }
    case 'part':
      return 'a procedure'
  }
}

/** Where the words of a link's older end are now, for marking them. Empty where none is left. */
export function placesOfOlder(state: LinkState | undefined): Range[] {
  return state?.older.places.filter((place) => place !== null) ?? []
}

/** What came of an entry, in words: '2 steps'; null where nothing did. What answers a problem is told elsewhere. */
export function outcomeWords(links: readonly Link[], parts: ProjectView['parts']): string | null {
  const carried = links.filter(({ newer }) => newer.node.kind !== 'entry')
  if (carried.length === 0) return null
  const steps = new Set<string>()
  const others = new Set<string>()
  for (const { newer } of carried) {
    const step = newer.node.kind === 'part' ? parts.get(newer.node.id)?.step : null
    if (step) steps.add(step)
    else others.add(newer.node.id)
  }
  const words = [counted(steps.size, 'step'), counted(others.size, steps.size > 0 ? 'other text' : 'text')]
  return words.filter((word) => word !== '').join(', ')
}

function counted(count: number, word: string): string {
  return count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`
}
