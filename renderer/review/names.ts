/** What rows and parts are called in the list of findings. */
import type { PartId, ProcedureId, StepId } from '../../shared/lab/ids.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { numberOf } from '../../shared/procedure/rows/numbers.ts'
import { wordOfOwnPart } from '../panes/procedure/words.ts'
import { partsOfStep, stepsOf, type ProjectView } from '../store/view.ts'
import { stepPartFaces } from '../ui/kinds.ts'

/** "Step 3: Stop the logger"; the procedure as a whole for null. */
export function nameOfRow(view: ProjectView, procedure: ProcedureId, step: StepId | null): string {
  const row = step && view.steps.get(step)
  if (!row) return 'The procedure as a whole'
  const parts = partsOfStep(view, row.id)
  const main = parts.get(row.level === 'section' ? 'heading' : 'do')
  const words = plainWords((main && view.texts.get(main.id)) ?? '', 60)
  if (row.level === 'section') return words === '' ? 'Section without a name' : `Section “${words}”`
  const name = `Step ${numberOf(stepsOf(view, procedure), row.id)}`
  return words === '' ? name : `${name}: ${words}`
}

/** "Do", "Closing checks". */
export function nameOfPartIn(view: ProjectView, id: PartId): string | null {
  const part = view.parts.get(id)
  if (!part) return null
  return part.step === null ? wordOfOwnPart[part.kind] : stepPartFaces[part.kind].word
}
