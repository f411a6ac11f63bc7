/** A procedure as it stood or stands, with its texts. */
import type { ProcedureId, RevisionId } from '../../shared/lab/ids.ts'
import type { Version } from '../../shared/lab/model.ts'
import { foldText } from '../../shared/lab/text.ts'
import { toStated, type Stated } from '../../shared/procedure/versions/compare.ts'
import type { Queries } from '../db/queries.ts'
import { toShownProcedure, type ShownProcedure } from '../panes/procedure/shown.ts'
import { parametersOf, stepsOf, type ProjectView } from '../store/view.ts'

/** The working copy. */
export function standingStated(view: ProjectView, procedure: ProcedureId): Stated {
  return {
    place: view.procedures.get(procedure)?.place ?? null,
    steps: stepsOf(view, procedure),
    parts: [...view.parts.values()]
      .filter((part) => part.procedure === procedure)
      .map((part) => ({ part, text: view.texts.get(part.id) ?? '' })),
    parameters: parametersOf(view, procedure),
  }
}

/** A version with the texts of the revisions that it names. */
export async function readStated(queries: Queries, version: Version): Promise<Stated> {
  const texts = new Map<RevisionId, string>()
  await Promise.all(
    version.parts.map(async ({ part, revision }) => {
      const revisions = await queries.revisions(part.id)
      const at = revisions.findIndex(({ id }) => id === revision)
      texts.set(revision, foldText(revisions.slice(0, at + 1)))
    }),
  )
  return toStated(version, (revision) => texts.get(revision) ?? '')
}

/** A version as it is read. What its parts came from is not said: that is known of the working copy. */
export function toShownVersion(
  view: ProjectView,
  procedure: ProcedureId,
  stated: Stated,
): ShownProcedure | null {
  const record = view.procedures.get(procedure)
  if (!record) return null
  return toShownProcedure(
    {
      ...view,
      procedures: new Map([[procedure, { ...record, place: stated.place }]]),
      steps: new Map(stated.steps.map((step) => [step.id, step])),
      parts: new Map(stated.parts.map(({ part }) => [part.id, part])),
      texts: new Map(stated.parts.map(({ part, text }) => [part.id, text])),
      links: new Map(),
    },
    procedure,
  )
}
