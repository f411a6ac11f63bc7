/** What came of a source: the newer things that its words were carried to, in every project of the lab. */
import { nameOfPart, numberOf } from '../../../shared/procedure/rows/numbers.ts'
import type { ProcedureId, ProjectId } from '../../../shared/lab/ids.ts'
import type { Link, LinkNode, LinkState, LinkType, Part, Range } from '../../../shared/lab/model.ts'
import type { OpenLab } from '../../db/lab.ts'
import { stepsOf, type ProjectView } from '../../store/view.ts'
import { entryKindFaces } from '../../ui/kinds.ts'
import { dayAndTimeOf } from './rows.ts'

export interface CameOf {
  readonly link: Link
  readonly type: LinkType
  readonly isLoose: boolean
  readonly node: LinkNode
  /** Where the words are now in the newer text; empty where none is left or none were carried. */
  readonly ranges: readonly Range[]
  /** 'Observation, 14 Nov 2026, 18:31' or 'Do of step 4'. */
  readonly where: string
  /** The words as they were carried; empty for a citation. */
  readonly words: string
  /** The project that the newer thing belongs to; null where it cannot be found any more. */
  readonly project: ProjectId | null
}

/** Everything that came of some captures and sources, oldest first. */
export async function findCameOf(
  lab: OpenLab,
  view: ProjectView,
  nodes: readonly string[],
): Promise<CameOf[]> {
  const { links, states } = await lab.queries.linksTo(nodes)
  const byLink = new Map(states.map((state) => [state.link, state]))
  // That one capture revises another is no carry.
  const carried = links.filter(({ newer }) => newer.node.kind !== 'capture')
  return Promise.all(carried.map((link) => describe(lab, view, link, byLink.get(link.id))))
}

async function describe(
  lab: OpenLab,
  view: ProjectView,
  link: Link,
  state: LinkState | undefined,
): Promise<CameOf> {
  const { node } = link.newer
  const { where, project } = await placeOf(lab, view, node)
  return {
    link,
    type: state?.type ?? (link.older.ranges.length > 0 ? 'quotes' : 'cites'),
    isLoose: state?.loose ?? false,
    node,
    ranges: state?.newer.places.filter((place) => place !== null) ?? [],
    where,
    words: link.older.ranges.map(({ quote }) => quote.exact).join(' '),
    project,
  }
}

interface Whereabouts {
  readonly where: string
  readonly project: ProjectId | null
}

async function placeOf(lab: OpenLab, view: ProjectView, node: LinkNode): Promise<Whereabouts> {
  if (node.kind === 'entry') {
    const entry = view.entries.get(node.id) ?? (await lab.queries.findEntry(node.id))
    if (!entry) return gone
    const withdrawn = view.withdrawn.has(entry.id) ? ', withdrawn' : ''
    return {
      where: `${entryKindFaces[entry.kind].word}, ${dayAndTimeOf(entry.moment)}${withdrawn}`,
      project: entry.project,
    }
  }
  const part =
    node.kind === 'part' ? (view.parts.get(node.id) ?? (await lab.queries.findPart(node.id))) : null
  if (!part) return gone
  const project = await projectOf(lab, view, part.procedure)
  return { where: nameOfShown(view, part), project }
}

const gone: Whereabouts = { where: 'Removed since', project: null }

async function projectOf(lab: OpenLab, view: ProjectView, procedure: ProcedureId): Promise<ProjectId | null> {
  const record = view.procedures.get(procedure) ?? (await lab.queries.findProcedure(procedure))
  return record?.project ?? null
}

/** 'Do of step 4'; without the number where the step belongs to a project that is not open. */
function nameOfShown(view: ProjectView, part: Part): string {
  const name = nameOfPart(part.kind, numberOf(stepsOf(view, part.procedure), part.step))
  return part.step === null ? `${name} of a procedure` : name
}
