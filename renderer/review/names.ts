/** What rows and parts are called in the list of findings. */
import type { PartId, ProcedureId, StepId } from '../../shared/lab/ids.ts'
import type { Part, Step } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { wordOfOwnPart } from '../panes/procedure/words.ts'
import { stepsOf, type ProjectView } from '../store/view.ts'
import { stepPartFaces } from '../ui/kinds.ts'

/** "Step 3: Stop the logger"; the procedure as a whole for null. */
export type NameOfRow = (step: StepId | null) => string

/** The names of a procedure's rows as it stands: its rows are looked through once. */
export function namesOfRows(view: ProjectView, procedure: ProcedureId): NameOfRow {
  const numbers = rowNumbers(stepsOf(view, procedure))
  const main = new Map<StepId, Part>()
  for (const part of view.parts.values())
    if (part.step !== null && (part.kind === 'do' || part.kind === 'heading')) main.set(part.step, part)
  return (id) => {
    const step = id === null ? undefined : view.steps.get(id)
    if (!step) return 'The procedure as a whole'
    const part = main.get(step.id)
    const words = plainWords((part && view.texts.get(part.id)) ?? '', 60)
    return nameOf(step, numbers.get(step.id) ?? '', words)
  }
}

function nameOf({ level }: Step, number: string, words: string): string {
  if (level === 'section') return words === '' ? 'Section without a name' : `Section “${words}”`
  return words === '' ? `Step ${number}` : `Step ${number}: ${words}`
}

/** "Do", "Closing checks". */
export function nameOfPartIn(view: ProjectView, id: PartId): string | null {
  const part = view.parts.get(id)
  if (!part) return null
  return part.step === null ? wordOfOwnPart[part.kind] : stepPartFaces[part.kind].word
}
