/**
 * What would lose its footing if something were wrong or gone.
 *
 * - A *chain* from a part is a row of links that are evidence (`isEvidence`): the first has its newer end in the part, and
 *   each further one has its newer end where the one before has its older end: in the same thing, at places that have a
 *   character in common. An end that is the thing as a whole, or whose words cannot all be found, has a character in
 *   common with every other end in that thing.
 * - A part *rests on* the suspects where a chain from it ends in one of them.
 * - A chain is *grounded* where it ends in a source or a capture, or in an entry or part with words of its own there:
 *   where the chain's last end holds a letter or digit that is in no newer end of an evidence link of that thing. Such an
 *   end that is the thing as a whole, or whose words cannot all be found, takes in all of its text. Something that is gone
 *   has no words, so it grounds nothing.
 * - A part rests *also on* the last things of its grounded chains that pass through no suspect. It rests on the suspects
 *   *alone* where it has no such chain.
 * - A step rests on the suspects where one of its parts does, and alone where none of its parts has a grounded chain that
 *   passes through no suspect. Likewise a part that is the procedure's own.
 *
 * A chain may lead over procedures, projects and any number of hops. Loose links count, since the words may be there still;
 * it is said where there is no chain without one.
 */
import type { LinkId, PartId } from '../lab/ids.ts'
import type { LinkNode, Range } from '../lab/model.ts'
import { followWords, type EndPlaces, type Places, type Spot } from './follow.ts'
import { isEvidence, type GraphLink, type TraceDirection } from './graph.ts'

/** What is known of a link beside what it joins. */
export interface LinkFacts {
  readonly places: EndPlaces
  readonly isLoose: boolean
  /** Some of the words that it carried were struck out. */
  readonly isStruck: boolean
}

/** All that lies within reach of the suspects, forward, and of the parts found there, backward. */
export interface ImpactRecords {
  readonly near: (node: string, direction: TraceDirection) => readonly GraphLink[]
  readonly factsOf: (link: LinkId) => LinkFacts
  /** The present text of an entry or a part; empty for one that is gone. */
  readonly textOf: (node: string) => string
}

/** A step with its parts, or one of the procedure's own parts. */
export interface Owner {
  readonly id: string
  readonly parts: readonly PartId[]
}

export interface PartImpact {
  readonly part: PartId
  /** The links of the part with which its chains to the suspects begin, in order. */
  readonly by: readonly LinkId[]
  readonly isAlone: boolean
  /** What it rests on also, the nearest first; each once. */
  readonly others: readonly LinkNode[]
  /** Every chain to the suspects has a link in it whose words can no longer be found at one of its ends. */
  readonly isLooseOnly: boolean
  /** A link of a chain to the suspects holds words that were struck out. */
  readonly hasStruck: boolean
}

export interface Impact {
  readonly owner: Owner
  readonly isAlone: boolean
  /** What its parts rest on also, those that do not rest on the suspects too; each once. */
  readonly others: readonly LinkNode[]
  /** Those of its parts that rest on the suspects. */
  readonly parts: readonly PartImpact[]
}

/** The parts that rest on the suspects, in the order in which they are met; suspects are not among them. */
export function partsRestingOn(records: ImpactRecords, suspects: ReadonlySet<string>): PartId[] {
  const parts = chainsFrom(records, suspects).flatMap(({ newer: { node } }) =>
    node.kind === 'part' && !suspects.has(node.id) ? [node.id] : [],
  )
  return [...new Set(parts)]
}

/**
 * Which of some steps rest on the suspects, and on what else. Definition above.
 * @param suspects ids of what is taken to be wrong or gone: a source with its captures, an entry
 * @param owners those that may rest on them, each with all of its parts
 */
export function impactOf(
  records: ImpactRecords,
  suspects: ReadonlySet<string>,
  owners: readonly Owner[],
): Impact[] {
  const { factsOf } = records
  const leading = new Set(chainsFrom(records, suspects))
  const certain = new Set(chainsFrom(records, suspects, (link) => !factsOf(link.id).isLoose))
  return owners.flatMap((owner): Impact[] => {
    const grounds = owner.parts.map((part) => groundsOf(records, part, suspects))
    const parts = owner.parts.flatMap((part, i): PartImpact[] => {
      const by = evidence(records, part, 'back').filter((link) => leading.has(link))
      if (suspects.has(part) || by.length === 0) return []
      const chain = followBack(records, [everywhereIn(part)]).filter((link) => leading.has(link))
      return [
        {
          part,
          by: by.map(({ id }) => id),
          isAlone: grounds[i]!.length === 0,
          others: grounds[i]!,
          isLooseOnly: !by.some((link) => certain.has(link)),
          hasStruck: chain.some(({ id }) => factsOf(id).isStruck),
        },
      ]
    })
    if (parts.length === 0) return []
    const others = distinct(grounds.flat())
    return [{ owner, isAlone: others.length === 0, others, parts }]
  })
}

const everywhereIn = (node: string): Spot => ({ node, places: 'all' })

function evidence(records: ImpactRecords, node: string, direction: TraceDirection): readonly GraphLink[] {
  return records.near(node, direction).filter(isEvidence)
}

/** The links that chains to the suspects are made of. */
function chainsFrom(
  records: ImpactRecords,
  suspects: ReadonlySet<string>,
  counts: (link: GraphLink) => boolean = () => true,
): GraphLink[] {
  const near = (node: string): readonly GraphLink[] => evidence(records, node, 'forward').filter(counts)
  const placesOf = (link: LinkId): EndPlaces => records.factsOf(link).places
  return followWords({ near, placesOf }, [...suspects].map(everywhereIn), 'forward')
}

function followBack(
  records: ImpactRecords,
  spots: readonly Spot[],
  isClosed?: (node: string) => boolean,
): GraphLink[] {
  const near = (node: string): readonly GraphLink[] => evidence(records, node, 'back')
  return followWords({ near, placesOf: (link) => records.factsOf(link).places }, spots, 'back', isClosed)
}

/** The last things of a part's grounded chains that pass through no suspect. */
function groundsOf(records: ImpactRecords, part: PartId, suspects: ReadonlySet<string>): LinkNode[] {
  if (suspects.has(part)) return []
  const links = followBack(records, [everywhereIn(part)], (node) => suspects.has(node))
  return distinct(links.filter((link) => isGround(records, link)).map(({ older }) => older.node))
}

/** Whether a chain that ends with this link is grounded. */
function isGround(records: ImpactRecords, { id, older: { node } }: GraphLink): boolean {
  if (node.kind === 'source' || node.kind === 'capture') return true
  const { factsOf, textOf } = records
  const taken = evidence(records, node.id, 'back').map((link) => factsOf(link.id).places.newer)
  return hasOwnWords(textOf(node.id), factsOf(id).places.older, taken)
}

const letterOrDigit = /[\p{L}\p{N}]/u

/** Whether the places hold a letter or digit that is in none of the taken ones. */
function hasOwnWords(text: string, places: Places, taken: readonly Places[]): boolean {
  const left: Range[] = places === 'all' ? [{ start: 0, end: text.length }] : [...places]
  const own = taken.reduce<readonly Range[]>(
    (ranges, one) => (one === 'all' ? [] : one.reduce(without, ranges)),
    left,
  )
  return own.some(({ start, end }) => letterOrDigit.test(text.slice(start, end)))
}

function without(ranges: readonly Range[], taken: Range): Range[] {
  return ranges
    .flatMap(({ start, end }) => [
      { start, end: Math.min(end, taken.start) },
      { start: Math.max(start, taken.end), end },
    ])
    .filter(({ start, end }) => start < end)
}

function distinct(nodes: readonly LinkNode[]): LinkNode[] {
  return [...new Map(nodes.map((node) => [node.id as string, node])).values()]
}
