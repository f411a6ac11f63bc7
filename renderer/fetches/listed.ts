/** What a procedure wants fetched, read from the project's view. Pure. */
import type { ProcedureId, StepId } from '../../shared/lab/ids.ts'
import type { Fetch, Machine, Parameter, Part } from '../../shared/lab/model.ts'
import { fetchListOf, type FetchList, type WantedFetch } from '../../shared/procedure/fetches/fetchList.ts'
import { toListed, type ListedFetch } from '../../shared/procedure/fetches/written.ts'
import { nameOfPart, rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { parametersOf, stepsOf, type ProjectView } from '../store/view.ts'

const nothing: FetchList = { items: [], stale: [] }

/** Texts with values in their placeholders' places, where the procedure is made for another host. */
export interface FilledTexts {
  readonly texts: ReadonlyMap<string, string>
  readonly parameters: readonly Parameter[]
}

/** What the procedure wants, with what is known of each. @param filled stands for the texts as they are kept */
export function fetchListIn(
  view: ProjectView,
  id: ProcedureId,
  machines: readonly Machine[],
  filled?: FilledTexts,
): FetchList {
  const procedure = view.procedures.get(id)
  if (!procedure) return nothing
  return fetchListOf(
    {
      procedure,
      steps: stepsOf(view, id),
      parts: partsInOrder(view, id),
      parameters: filled?.parameters ?? parametersOf(view, id),
      ...{ leftOut: [], links: [], states: new Map() },
    },
    { texts: filled?.texts ?? view.texts, machines },
    recordsOf(view, id),
  )
}

const partsInOrder = (view: ProjectView, id: ProcedureId): Part[] =>
  [...view.parts.values()].filter(({ procedure }) => procedure === id)

/** Two windows may each have begun a record of one thing; the older one counts. */
function recordsOf(view: ProjectView, id: ProcedureId): Fetch[] {
  return [...view.fetches.values()]
    .filter(({ procedure }) => procedure === id)
    .sort((a, b) => (a.id < b.id ? -1 : 1))
}

/** By which name a place goes that wants something: "Step 3", "Step 3, if it fails", "Back-up". */
export function namesOfPlaces(
  view: ProjectView,
  id: ProcedureId,
): (place: WantedFetch['wanted'][number]) => string {
  const numbers: ReadonlyMap<StepId, string> = rowNumbers(stepsOf(view, id))
  return ({ step, part }) => {
    const number = step ? (numbers.get(step.id) ?? '') : ''
    if (number === '') return nameOfPart(part.kind, '')
    return part.kind === 'do' ? `Step ${number}` : `Step ${number}, ${part.kind}`
  }
}

/** The same list as it is written out. */
export function listedIn(
  view: ProjectView,
  id: ProcedureId,
  machines: readonly Machine[],
  filled?: FilledTexts,
): ListedFetch[] {
  return toListed(fetchListIn(view, id, machines, filled).items, namesOfPlaces(view, id))
}
