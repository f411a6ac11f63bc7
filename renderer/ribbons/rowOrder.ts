/** The order of the rows of a procedure, for ends whose rows are not in the page. */
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { stepsOf, type ProjectView } from '../store/view.ts'
import type { RowOrder } from './surfaces/procedure.ts'

/** Found when it is first asked for. @param shown the procedure that the pane shows */
export function rowOrderOf(view: ProjectView, shown: ProcedureId | null): RowOrder {
  let indexes: ReadonlyMap<string, number> | null = null
  const ofStep = (id: string): number | undefined => {
    indexes ??= new Map((shown ? stepsOf(view, shown) : []).map((step, at) => [step.id as string, at]))
    return indexes.get(id)
  }
  const ofPart = (id: string): number | undefined => {
    const part = view.parts.get(id)
    return part?.step && part.procedure === shown ? ofStep(part.step) : undefined
  }
  return { ofStep, ofPart }
}
