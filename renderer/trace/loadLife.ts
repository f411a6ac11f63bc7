/** Reads what the life of a step is told from: no more of the lab's Changes than those that its texts name. */
import { momentOf } from '../../shared/journal/entry-facts.ts'
import { problemsOf } from '../../shared/journal/problems.ts'
import type { EntryId, PartId, StepId } from '../../shared/lab/ids.ts'
import type { Entry, Link, LinkNode, Mark, Part, Revision } from '../../shared/lab/model.ts'
import { endPlaces, followWords } from '../../shared/provenance/follow.ts'
import { isEvidence, toGraphLink } from '../../shared/provenance/graph.ts'
import { lifeOf, type LifeEntry, type LifeEvent, type LifeRecords } from '../../shared/provenance/life.ts'
import { nearIn } from '../../shared/provenance/trace.ts'
import type { Queries } from '../db/queries.ts'
import { groupMarks, loadLabels, type Labels, type TraceLab } from './labels.ts'
import { loadLinks } from './loadLinks.ts'

export interface LoadedLife {
  /** The oldest first. Empty for a step that is not in the lab. */
  readonly events: readonly LifeEvent[]
  /** Of the things that words came from, and of the entries, by their ids. */
  readonly labels: Labels
}

/** The life of a step. Nothing of it is told by runs: there are none yet. */
export async function loadLife(lab: TraceLab, id: StepId): Promise<LoadedLife> {
  const { queries } = lab
  const step = await queries.trace.findStep(id)
  if (!step) return { events: [], labels: new Map() }
  const parts = await queries.trace.partsOfSteps([id])
  const revisions = await revisionsOf(queries, parts)
  const named = [...revisions.values()].flat().map(({ change }) => change)
  const records: LifeRecords = {
    ...{ parts, revisions, runs: [] },
    links: (await queries.linksFrom(parts.map((part) => part.id))).links,
    ...(await entriesBehind(queries, parts)),
    versions: await queries.versionsOf([step.procedure]),
  }
  const events = lifeOf(step, records, await queries.trace.changes([...new Set(named)]))
  return { events, labels: await loadLabels(lab, events.flatMap(nodesOf)) }
}

async function revisionsOf(
  queries: Queries,
  parts: readonly Part[],
): Promise<Map<PartId, readonly Revision[]>> {
  const all = parts.map(async ({ id }) => [id, await queries.revisions(id)] as const)
  return new Map(await Promise.all(all))
}

function nodesOf(event: LifeEvent): LinkNode[] {
  if (event.kind === 'entry') return [{ kind: 'entry', id: event.entry.entry.id }]
  return event.kind === 'carry' ? [event.link.older.node, event.link.newer.node] : []
}

/** The entries that some parts rest on, and the problems among them or answered by them. */
async function entriesBehind(
  queries: Queries,
  parts: readonly Part[],
): Promise<Pick<LifeRecords, 'entries' | 'problems'>> {
  const rested = await entryIdsBehind(queries, parts)
  const answered = joiningEntries((await queries.linksFrom(rested)).links).map(({ older }) => older.node.id)
  const found = await queries.trace.entries([...new Set([...rested, ...answered])])
  const problemIds = found.filter(({ kind }) => kind === 'problem').map(({ id }) => id as string)
  const links = joiningEntries((await queries.linksTo(problemIds)).links)
  const answers = await queries.trace.entries(links.map(({ newer }) => newer.node.id))
  const entries = new Map([...found, ...answers].map((entry) => [entry.id as string, entry]))
  const known = await knownOf(queries, entries)
  const own = new Set(rested)
  const problems = problemsOf({ entries, ...known, links })
  return {
    entries: found.filter(({ id }) => own.has(id)).map((entry) => toLifeEntry(entry, known)),
    problems: problems.map(({ entry, ended }) => ({
      problem: toLifeEntry(entry, known),
      ended: ended && toLifeEntry(ended.entry, known),
    })),
  }
}

async function entryIdsBehind(queries: Queries, parts: readonly Part[]): Promise<EntryId[]> {
  const starts = parts.map(({ id }): LinkNode => ({ kind: 'part', id }))
  const { links, states } = await loadLinks(queries, starts, 'back')
  const near = nearIn([...links.values()].map(toGraphLink).filter(isEvidence), 'back')
  const spots = parts.map(({ id }) => ({ node: id, places: 'all' }) as const)
  const own = followWords({ near, placesOf: (link) => endPlaces(states.get(link)) }, spots, 'back')
  const ids = own.flatMap(({ older: { node } }) => (node.kind === 'entry' ? [node.id] : []))
  return [...new Set(ids)]
}

/** Links that say that a fix or a decision ended a problem. */
const joiningEntries = (links: readonly Link[]): Link[] =>
  links.filter(({ newer, older }) => newer.node.kind === 'entry' && older.node.kind === 'entry')

interface Known {
  readonly withdrawn: ReadonlySet<string>
  readonly marks: ReadonlyMap<string, readonly Mark[]>
}

async function knownOf(queries: Queries, entries: ReadonlyMap<string, Entry>): Promise<Known> {
  const ids = [...entries.keys()]
  return {
    marks: groupMarks(await queries.trace.marks(ids)),
    withdrawn: await queries.withdrawnAmong(ids),
  }
}

function toLifeEntry(entry: Entry, { marks, withdrawn }: Known): LifeEntry {
  return { entry, at: momentOf(entry, marks.get(entry.id)), isWithdrawn: withdrawn.has(entry.id) }
}
