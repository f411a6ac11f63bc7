/** The links of the open project as ribbons, each made once for a state of the project. */
import type { Link } from '../../shared/lab/model.ts'
import type { ProjectView } from '../store/view.ts'
import {
  chainsOf,
  indexOf,
  linksAt,
  sourceOf,
  toRibbonLink,
  type KnownSources,
  type RibbonLink,
} from './links.ts'
import type { Subject } from './subject.ts'
import type { RowOrder } from './surfaces/procedure.ts'

export class Collector {
  private readonly made = new Map<string, RibbonLink>()
  private bySource: ReadonlyMap<string, readonly Link[]> | null = null

  constructor(
    private readonly view: Pick<ProjectView, 'links' | 'states'>,
    private readonly known: KnownSources,
    readonly order: RowOrder,
  ) {}

  /** The chains of what the person is at. */
  chains({ nodes, at }: Subject): RibbonLink[] {
    const index = indexOf(this.view.links)
    const isFrom = at === null ? undefined : (link: Link) => this.holdsPlace(link, at)
    return chainsOf(index, nodes, isFrom).map((link) => this.toRibbon(link))
  }

  /** All links at some things, each once. What is linked to a capture is linked to its source. */
  at(things: Iterable<string>): RibbonLink[] {
    const index = indexOf(this.view.links)
    const found = new Set<Link>()
    for (const id of things) {
      for (const link of linksAt(index, 'back', id)) found.add(link)
      for (const link of linksAt(index, 'forward', id)) found.add(link)
      for (const link of this.linksToSources().get(id) ?? []) found.add(link)
    }
    return [...found].map((link) => this.toRibbon(link))
  }

  private linksToSources(): ReadonlyMap<string, readonly Link[]> {
    if (this.bySource) return this.bySource
    const bySource = new Map<string, Link[]>()
    for (const links of indexOf(this.view.links).byOlder.values()) {
      const source = sourceOf(links[0]!.older.node, this.known)
      if (source !== null) bySource.set(source, [...(bySource.get(source) ?? []), ...links])
    }
    return (this.bySource = bySource)
  }

  /** Whether a place in the older text lies within the words that a link carried. */
  private holdsPlace(link: Link, at: number): boolean {
    const places = this.view.states.get(link.id)?.older.places ?? []
    return places.some((place) => place !== null && place.start <= at && at <= place.end)
  }

  private toRibbon(link: Link): RibbonLink {
    const known = this.made.get(link.id)
    if (known) return known
    const made = toRibbonLink(link, this.view.states.get(link.id), this.known)
    this.made.set(link.id, made)
    return made
  }
}
