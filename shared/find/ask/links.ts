/** The links that one question meets, read as it goes: the lab's whole graph lives elsewhere and is not copied. */
import { LinkGraph, type GraphLink, type TraceDirection } from '../../provenance/graph.ts'
import { MOST_HOPS, walkTrace, type Hop } from '../../provenance/trace.ts'
import type { LinkNode } from '../../lab/model.ts'
import type { AskRef, AskSurroundings } from './thing.ts'

export class AskedLinks {
  private readonly graph = new LinkGraph()
  private readonly read: Readonly<Record<TraceDirection, Set<string>>> = {
    back: new Set(),
    forward: new Set(),
  }

  constructor(private readonly around: Pick<AskSurroundings, 'readLinks'>) {}

  /** Reads the links at some nodes, so that {@link near} and {@link answersAt} know them. */
  async ensure(nodes: Iterable<string>, direction: TraceDirection): Promise<void> {
    const known = this.read[direction]
    const unread = [...new Set(nodes)].filter((node) => !known.has(node))
    if (unread.length === 0) return
    for (const node of unread) known.add(node)
    for (const link of await this.around.readLinks(unread, direction)) this.graph.put(link)
  }

  /** Of nodes that were read, in the order in which the links were made. */
  near(node: string, direction: TraceDirection): readonly GraphLink[] {
    return this.graph.near(node, direction)
  }

  /** The other ends of the links by which a fix or decision answers a problem. */
  answersAt(entry: string): AskRef[] {
    const older = this.near(entry, 'back').filter(
      ({ isWhole, older: { node } }) => isWhole && node.kind === 'entry',
    )
    const newer = this.near(entry, 'forward').filter(
      ({ isWhole, newer: { node } }) => isWhole && node.kind === 'entry',
    )
    return [
      ...older.map((link) => ({ id: link.older.node.id, thing: 'problem' as const })),
      ...newer.map((link) => ({ id: link.newer.node.id, thing: 'entry' as const })),
    ]
  }

  /** What some nodes came from, hop by hop. */
  async chainOf(starts: readonly LinkNode[]): Promise<readonly Hop<GraphLink>[]> {
    const met = new Set(starts.map(({ id }) => id as string))
    let level: readonly string[] = [...met]
    // One hop further than is walked, to say whether it goes on there.
    for (let hop = 0; hop <= MOST_HOPS && level.length > 0; hop++) {
      await this.ensure(level, 'back')
      const next = level.flatMap((node) =>
        this.near(node, 'back').map(({ older }) => older.node.id as string),
      )
      level = [...new Set(next)].filter((node) => !met.has(node))
      for (const node of level) met.add(node)
    }
    return walkTrace((node) => this.near(node, 'back'), starts, 'back')
  }
}
