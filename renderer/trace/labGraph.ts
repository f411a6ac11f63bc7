/** The links of the open lab in memory: read once, when they are first needed, and then kept in step with its Changes. */
import { LinkGraph } from '../../shared/provenance/graph.ts'
import type { GraphLink } from '../../shared/provenance/graph.ts'
import type { OpenLab } from '../db/lab.ts'
import { readLinks, readLinksApart } from '../workers/links.ts'

/** Gives all links of a lab. @returns the last Change that is surely in them */
export type LinkReader = (lab: OpenLab, take: (links: readonly GraphLink[]) => void) => Promise<number>

export class LabGraph {
  private readonly graph = new LinkGraph()
  /** The last Change that is surely in the graph; null until all was read. */
  private sequence: number | null = null
  private working: Promise<unknown> = Promise.resolve()

  constructor(
    private readonly lab: OpenLab,
    private readonly read: LinkReader = readInWorker,
  ) {}

  /** Whether all was read, so that asking waits for the latest Changes alone. */
  get isRead(): boolean {
    return this.sequence !== null
  }

  /** The graph up to the lab's last Change. Reads all of it when it is first asked for. @throws Error where it cannot */
  upToDate(): Promise<LinkGraph> {
    const next = this.working.then(() => this.catchUp())
    this.working = next.catch(() => undefined)
    return next
  }

  private async catchUp(): Promise<LinkGraph> {
    const { lab, graph } = this
    this.sequence ??= await this.read(lab, (links) => links.forEach((link) => graph.put(link)))
    const changes = await lab.queries.changesAfter(this.sequence)
    graph.apply(changes)
    this.sequence = changes.at(-1)?.sequence ?? this.sequence
    return graph
  }
}

/** Where no worker can be had, it is read here. */
const readInWorker: LinkReader = (lab, take) =>
  readLinksApart(lab.id, take).catch(() => readLinks(lab.queries, take))

const graphs = new WeakMap<OpenLab, LabGraph>()

/** The one graph of a lab as long as that is open. */
export function graphOf(lab: OpenLab): LabGraph {
  const known = graphs.get(lab)
  if (known) return known
  const made = new LabGraph(lab)
  graphs.set(lab, made)
  return made
}
