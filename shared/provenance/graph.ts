/**
 * The links of a lab as a graph in memory: which thing came from which, without words. Derived from the link records, filled
 * once and kept in step Change by Change, so that a chain can be walked without reading the store for every hop.
 */
import type { StoredChange } from '../lab/change.ts'
import type { LinkId } from '../lab/ids.ts'
import type { Link, LinkNode } from '../lab/model.ts'

/** Back: to what it came from. Forward: to what came of it. */
export type TraceDirection = 'back' | 'forward'

/** A link as far as a walk needs it. */
export interface Joined {
  readonly id: LinkId
  readonly newer: { readonly node: LinkNode }
  readonly older: { readonly node: LinkNode }
}

/** A link without its words. */
export interface GraphLink extends Joined {
  /** No words were carried: at one end at least it is the thing as a whole. */
  readonly isWhole: boolean
}

/** A link record as a graph keeps it. */
export function toGraphLink({ id, newer, older }: Link): GraphLink {
  return {
    id,
    newer: { node: newer.node },
    older: { node: older.node },
    isWhole: newer.ranges.length === 0 || older.ranges.length === 0,
  }
}

/**
 * Whether the newer thing rests on the older one: words of it were taken, or it cites a source as a whole. That a fix ended
 * a problem, or that a capture was taken after another, is another matter.
 */
export function isEvidence({ newer, older, isWhole }: GraphLink): boolean {
  return !isWhole || (older.node.kind === 'source' && newer.node.kind !== 'source')
}

/** The links near a thing. What a walk asks at every node. */
export type Near<L extends Joined> = (node: string) => readonly L[]

interface Neighbours {
  /** The one object that stands for this node in every link. */
  readonly end: { readonly node: LinkNode }
  /** Links that lead from it to what it came from, and to it from what came of it; in the order of their ids. */
  readonly back: GraphLink[]
  readonly forward: GraphLink[]
}

const none: readonly GraphLink[] = []

export class LinkGraph {
  private readonly nodes = new Map<string, Neighbours>()
  private count = 0

  /** How many links it holds. */
  get size(): number {
    return this.count
  }

  /** Adds a link; one that it holds already stays as it is. */
  put({ id, newer, older, isWhole }: GraphLink): void {
    const [from, to] = [this.neighbours(newer.node), this.neighbours(older.node)]
    const link: GraphLink = { id, newer: from.end, older: to.end, isWhole }
    if (!insert(from.back, link)) return
    insert(to.forward, link)
    this.count += 1
  }

  /** Takes a link away; one that it does not hold is passed over. */
  remove({ id, newer, older }: Joined): void {
    const [from, to] = [this.nodes.get(newer.node.id), this.nodes.get(older.node.id)]
    if (!from || !to || !drop(from.back, id)) return
    drop(to.forward, id)
    this.count -= 1
    for (const { end, back, forward } of [from, to])
      if (back.length + forward.length === 0) this.nodes.delete(end.node.id)
  }

  /** Brings it up to some Changes. Such as it knows of already change nothing. */
  apply(changes: readonly StoredChange[]): void {
    for (const operation of changes.flatMap(({ operations }) => operations)) {
      if (operation.op === 'text' || operation.table !== 'links') continue
      if (operation.op === 'put') this.put(toGraphLink(operation.record))
      else this.remove(operation.before)
    }
  }

  /**
   * The links near a thing, in the order in which they were made: of what it came from, or of what came of it.
   * The list is the graph's own; it is not to be kept over a Change.
   */
  near(node: string, direction: TraceDirection): readonly GraphLink[] {
    return this.nodes.get(node)?.[direction] ?? none
  }

  private neighbours(node: LinkNode): Neighbours {
    const known = this.nodes.get(node.id)
    if (known) return known
    const made = { end: { node }, back: [], forward: [] }
    this.nodes.set(node.id, made)
    return made
  }
}

/** The first place whose link has this id or a later one. Nearly every link is the newest of its list. */
function placeOf(links: readonly GraphLink[], id: LinkId): number {
  let [low, high] = [0, links.length]
  if (high > 0 && links[high - 1]!.id < id) return high
  while (low < high) {
    const middle = (low + high) >> 1
    if (links[middle]!.id < id) low = middle + 1
    else high = middle
  }
  return low
}

/** @returns whether it was not there yet */
function insert(links: GraphLink[], link: GraphLink): boolean {
  const at = placeOf(links, link.id)
  if (links[at]?.id === link.id) return false
  links.splice(at, 0, link)
  return true
}

function drop(links: GraphLink[], id: LinkId): boolean {
  const at = placeOf(links, id)
  if (links[at]?.id !== id) return false
  links.splice(at, 1)
  return true
}
