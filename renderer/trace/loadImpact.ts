/** Reads what would lose its footing if something were wrong or gone, in all procedures of the lab. */
import type { LinkId, StepId } from '../../shared/lab/ids.ts'
import type { Link, LinkNode, LinkState, Part, Range, TextNodeId } from '../../shared/lab/model.ts'
import { endPlaces } from '../../shared/provenance/follow.ts'
import {
  isEvidence,
  type GraphLink,
  type LinkGraph,
  type TraceDirection,
} from '../../shared/provenance/graph.ts'
import {
  impactOf,
  partsRestingOn,
  type Impact,
  type ImpactRecords,
  type LinkFacts,
  type Owner,
} from '../../shared/provenance/impact.ts'
import { reachOf } from '../../shared/provenance/trace.ts'
import { MASK } from '../../shared/safety/mask.ts'
import type { OpenLab } from '../db/lab.ts'
import type { Queries } from '../db/queries.ts'
import type { Traced } from '../store/traced.ts'
import { graphOf } from './labGraph.ts'
import { loadLabels, loadOutlines, type Labels, type Outline, type TraceLab } from './labels.ts'
import { loadStart, type TraceStart } from './starts.ts'

/** A step, or a part of a procedure itself, that rests on what is traced. */
export interface ImpactRow {
  readonly impact: Impact
  /** "Step 3.1", "Purpose". */
  readonly name: string
  readonly parts: readonly ImpactPart[]
}

export interface ImpactPart {
  readonly part: Part
  /** Where its words stand that rest on what is traced; empty where they cannot be found any more. */
  readonly ranges: readonly Range[]
  readonly words: string
}

export interface ImpactGroup {
  /** The procedure. */
  readonly id: string
  readonly outline: Outline
  /** In the order of the procedure; its own parts first. */
  readonly rows: readonly ImpactRow[]
}

export interface LoadedImpact {
  readonly start: TraceStart
  readonly groups: readonly ImpactGroup[]
  readonly labels: Labels
}

/** What rests on a source, a capture or an entry. */
export async function loadImpact(lab: OpenLab, traced: Traced): Promise<LoadedImpact> {
  const start = await loadStart(lab, traced)
  const suspects = new Set(start.nodes.map(({ id }) => id as string))
  const facts = new Facts(lab.queries, await graphOf(lab).upToDate())
  await facts.read(start.nodes, 'forward')
  const parts = await lab.queries.trace.parts(partsRestingOn(facts.records(), suspects))
  const owned = await loadOwners(lab.queries, parts)
  await facts.read(
    owned.flatMap(({ owner }) => owner.parts.map((id): LinkNode => ({ kind: 'part', id }))),
    'back',
  )
  await facts.readTexts()
  const impacts = impactOf(
    facts.records(),
    suspects,
    owned.map(({ owner }) => owner),
  )
  const groups = await toGroups(lab, impacts, owned, facts)
  return {
    start,
    groups,
    labels: await loadLabels(
      lab,
      impacts.flatMap(({ others }) => others),
    ),
  }
}

/** What is known of the links that lie within reach. */
class Facts {
  private readonly links = new Map<LinkId, Link>()
  readonly states = new Map<LinkId, LinkState>()
  private readonly found: GraphLink[] = []
  texts: ReadonlyMap<string, string> = new Map()

  constructor(
    private readonly queries: Queries,
    private readonly graph: LinkGraph,
  ) {}

  async read(starts: readonly LinkNode[], direction: TraceDirection): Promise<void> {
    const near = (node: string): readonly GraphLink[] => this.graph.near(node, direction).filter(isEvidence)
    const { links } = reachOf(near, starts, direction, Infinity)
    this.found.push(...links)
    const unknown = links.map(({ id }) => id).filter((id) => !this.links.has(id))
    const read = await this.queries.trace.links(unknown)
    for (const link of read.links) this.links.set(link.id, link)
    for (const state of read.states) this.states.set(state.link, state)
  }

  async readTexts(): Promise<void> {
    const nodes = this.found.flatMap(({ newer, older }) => [newer.node, older.node])
    const withText = nodes.filter(({ kind }) => kind === 'entry' || kind === 'part')
    this.texts = await this.queries.trace.texts([...new Set(withText.map(({ id }) => id as TextNodeId))])
  }

  records(): ImpactRecords {
    return {
      near: (node, direction) => this.graph.near(node, direction).filter(({ id }) => this.links.has(id)),
      factsOf: (link) => this.factsOf(link),
      textOf: (node) => this.texts.get(node) ?? '',
    }
  }

  private factsOf(id: LinkId): LinkFacts {
    const state = this.states.get(id)
    const link = this.links.get(id)
    const words = link ? [link.newer, link.older].flatMap(({ ranges }) => ranges) : []
    return {
      places: endPlaces(state),
      isLoose: state?.loose ?? false,
      isStruck: words.some(({ quote }) => quote.exact.includes(MASK)),
    }
  }
}

interface Owned {
  readonly owner: Owner
  readonly parts: readonly Part[]
}

/** The steps that some parts are of, each with all of its parts; parts that are a procedure's own stand for themselves. */
async function loadOwners(queries: Queries, parts: readonly Part[]): Promise<Owned[]> {
  const steps = [...new Set(parts.flatMap(({ step }) => (step === null ? [] : [step])))]
  const ofSteps = new Map<StepId, Part[]>(steps.map((id) => [id, []]))
  for (const part of await queries.trace.partsOfSteps(steps))
    if (part.step) ofSteps.get(part.step)?.push(part)
  const toOwned = (id: string, all: readonly Part[]): Owned => ({
    owner: { id, parts: all.map((part) => part.id) },
    parts: all,
  })
  return [
    ...parts.filter(({ step }) => step === null).map((part) => toOwned(part.id, [part])),
    ...[...ofSteps].map(([id, all]) => toOwned(id, all)),
  ]
}

async function toGroups(
  lab: TraceLab,
  impacts: readonly Impact[],
  owned: readonly Owned[],
  facts: Facts,
): Promise<ImpactGroup[]> {
  const parts = new Map(owned.flatMap((one) => one.parts.map((part) => [part.id, part] as const)))
  const outlines = await loadOutlines(lab, [...parts.values()])
  const groups = new Map<string, { readonly outline: Outline; readonly rows: ImpactRow[] }>()
  for (const impact of impacts) {
    const own = impact.parts.map(({ part, by }) => toPart(parts.get(part)!, by, facts))
    const { procedure } = own[0]!.part
    const outline = outlines.get(procedure)!
    const group = groups.get(procedure) ?? { outline, rows: [] }
    groups.set(procedure, group)
    group.rows.push({ impact, name: nameOfRow(own[0]!.part, outline), parts: own })
  }
  return [...groups].map(([id, { outline, rows }]) => ({ id, outline, rows: inOrder(rows, outline) }))
}

function toPart(part: Part, by: readonly LinkId[], facts: Facts): ImpactPart {
  const places = by.flatMap((id) => facts.states.get(id)?.newer.places ?? [])
  const ranges = places.filter((place) => place !== null).sort((a, b) => a.start - b.start)
  const text = facts.texts.get(part.id) ?? ''
  return { part, ranges, words: ranges.map(({ start, end }) => text.slice(start, end)).join(' … ') }
}

function nameOfRow({ step, kind }: Part, { numberOf }: Outline): string {
  if (step === null) return kind.charAt(0).toUpperCase() + kind.slice(1)
  const number = numberOf(step)
  return number === '' ? 'A section' : `Step ${number}`
}

function inOrder(rows: readonly ImpactRow[], { steps }: Outline): ImpactRow[] {
  const positions = new Map(steps.map(({ id, position }) => [id as string, position]))
  const place = (row: ImpactRow): string => positions.get(row.parts[0]!.part.step ?? '') ?? ''
  return [...rows].sort((a, b) => (place(a) === place(b) ? 0 : place(a) < place(b) ? -1 : 1))
}

/** How many rows there are, and how many of them rest on what is traced alone. */
export function countImpact(groups: readonly ImpactGroup[]): {
  readonly all: number
  readonly alone: number
} {
  const rows = groups.flatMap((group) => group.rows)
  return { all: rows.length, alone: rows.filter(({ impact }) => impact.isAlone).length }
}
