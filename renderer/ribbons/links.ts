/** Links as ribbons see them: two ends in the panes, and the form in which they are drawn. Pure. */
import type {
  CaptureHead,
  Link,
  LinkNode,
  LinkState,
  LinkType,
  Range,
  Source,
} from '../../shared/lab/model.ts'
import type { LinkId, SourceId } from '../../shared/lab/ids.ts'
import type { Band } from '../frame/layout.ts'
import { standingSource } from '../store/labSources.ts'

/** How a ribbon is drawn: by its link's type, or as one whose words were lost. */
export type RibbonForm = Exclude<LinkType, 'follows'> | 'loose'

export const ribbonForms = [
  'quotes',
  'derives',
  'cites',
  'revises',
  'answers',
  'loose',
] as const satisfies RibbonForm[]

export interface RibbonEnd {
  readonly band: Band
  readonly node: LinkNode
  /** Of a capture or a source: the source that stands for it in the list. */
  readonly source: SourceId | null
  /** Where its words stand now; empty for a thing as a whole, and where they are lost. */
  readonly places: readonly Range[]
  readonly isLost: boolean
  /** The same for ends that stand at the same place. */
  readonly key: string
}

export interface RibbonLink {
  readonly link: Link
  readonly form: RibbonForm
  readonly older: RibbonEnd
  readonly newer: RibbonEnd
}

/** What is known of sources, of the whole lab. */
export interface KnownSources {
  readonly sources: ReadonlyMap<string, Source>
  readonly heads: ReadonlyMap<string, CaptureHead>
}

/** The pane that shows a thing. */
export const bandOf: Readonly<Record<LinkNode['kind'], Band>> = {
  source: 'sources',
  capture: 'sources',
  entry: 'journal',
  part: 'procedure',
}

/** @param state undefined where it was not derived yet: then the link joins its things as wholes */
export function toRibbonLink(link: Link, state: LinkState | undefined, known: KnownSources): RibbonLink {
  return {
    link,
    form: formOf(state),
    older: toEnd(link.older.node, state?.older, known),
    newer: toEnd(link.newer.node, state?.newer, known),
  }
}

function formOf(state: LinkState | undefined): RibbonForm {
  if (!state) return 'derives'
  if (state.loose) return 'loose'
  return state.type === 'follows' ? 'revises' : state.type
}

function toEnd(node: LinkNode, state: LinkState['older'] | undefined, known: KnownSources): RibbonEnd {
  const places = state?.places.filter((place) => place !== null) ?? []
  const words = places.map(({ start, end }) => `${start}-${end}`).join()
  return {
    band: bandOf[node.kind],
    node,
    source: sourceOf(node, known),
    places,
    isLost: state?.loose ?? false,
    key: `${node.id} ${words}`,
  }
}

/** The source that a capture is of, or that a source was merged into; null for other things, and where it is not known. */
export function sourceOf(node: LinkNode, known: KnownSources): SourceId | null {
  const id =
    node.kind === 'source' ? node.id : node.kind === 'capture' ? known.heads.get(node.id)?.source : null
  const source = id && known.sources.get(id)
  return source ? standingSource(known, source).id : null
}

/** Links by the things at their ends. */
export interface LinkIndex {
  readonly byNewer: ReadonlyMap<string, readonly Link[]>
  readonly byOlder: ReadonlyMap<string, readonly Link[]>
}

const indexes = new WeakMap<ReadonlyMap<string, Link>, LinkIndex>()

/** The index of a project's links; made once for each state of them. */
export function indexOf(links: ReadonlyMap<string, Link>): LinkIndex {
  const known = indexes.get(links)
  if (known) return known
  const byNewer = new Map<string, Link[]>()
  const byOlder = new Map<string, Link[]>()
  for (const link of links.values()) {
    add(byNewer, link.newer.node.id, link)
    add(byOlder, link.older.node.id, link)
  }
  const index = { byNewer, byOlder }
  indexes.set(links, index)
  return index
}

function add(groups: Map<string, Link[]>, key: string, link: Link): void {
  const group = groups.get(key)
  if (group) group.push(link)
  else groups.set(key, [link])
}

const none: readonly Link[] = []

/** The links that lead back from a thing, or forward from it. */
export function linksAt(index: LinkIndex, direction: 'back' | 'forward', id: string): readonly Link[] {
  return (direction === 'back' ? index.byNewer : index.byOlder).get(id) ?? none
}

/**
 * The chains of some things: all links that lead back from them, hop by hop, and all that lead forward.
 * @param isFrom of the links at the things themselves, which ones count
 */
export function chainsOf(
  index: LinkIndex,
  starts: readonly string[],
  isFrom: (link: Link) => boolean = () => true,
): Link[] {
  const found = new Map<LinkId, Link>()
  for (const direction of ['back', 'forward'] as const) {
    const met = new Set(starts)
    const first = starts.flatMap((id) => linksAt(index, direction, id)).filter(isFrom)
    for (let level: readonly Link[] = first; level.length > 0;) {
      const next: Link[] = []
      for (const link of level) {
        found.set(link.id, link)
        const far = (direction === 'back' ? link.older : link.newer).node.id
        if (met.has(far)) continue
        met.add(far)
        next.push(...linksAt(index, direction, far))
      }
      level = next
    }
  }
  return [...found.values()]
}
