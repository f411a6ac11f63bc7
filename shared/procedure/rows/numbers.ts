/** The numbers of steps. */
import { compareSteps } from '../../lab/acts.ts'
import type { StepId } from '../../lab/ids.ts'
import { procedurePartKinds, type PartKind, type Step } from '../../lab/model.ts'

/** The number of each step and sub-step, `3` or `3.1`; a section has an empty one. */
export function rowNumbers(steps: readonly Step[]): Map<StepId, string> {
  const numbers = new Map<StepId, string>()
  let step = 0
  let sub = 0
  // A sub-step at the head of a procedure or of a section has no step to belong to.
  let isUnderStep = false
  for (const { id, level } of [...steps].sort(compareSteps)) {
    if (level === 'section') {
      isUnderStep = false
      numbers.set(id, '')
    } else if (level === 'sub-step' && isUnderStep) {
      numbers.set(id, `${step}.${(sub += 1)}`)
    } else {
      step += 1
      sub = 0
      isUnderStep = true
      numbers.set(id, String(step))
    }
  }
  return numbers
}

/** The number of a step; empty for a section, for null and for a step that is not among them. */
export function numberOf(steps: readonly Step[], step: StepId | null): string {
  return step === null ? '' : (rowNumbers(steps).get(step) ?? '')
}

/** How many steps a person has to follow: sub-steps are parts of theirs, sections none. */
export function countSteps(steps: readonly Step[]): number {
  return [...rowNumbers(steps).values()].filter((number) => number !== '' && !number.includes('.')).length
}

/** Rows that go together in words: "Step", "Step with 2 sub-steps", "Section with 12 steps", its sub-steps counted. */
export function countRows(rows: readonly Step[]): string {
  const head = rows[0]?.level ?? 'step'
  const rest = rows.length - 1
  const words = head.charAt(0).toUpperCase() + head.slice(1)
  if (rest === 0) return words
  return `${words} with ${rest} ${head === 'section' ? 'step' : 'sub-step'}${rest === 1 ? '' : 's'}`
}

/** "Do of step 3.1"; a section's heading and a procedure's own parts go by what they are. */
export function nameOfPart(kind: PartKind, number: string): string {
  if (kind === 'heading') return 'Heading of a section'
  const words = kind.charAt(0).toUpperCase() + kind.slice(1)
  if (procedurePartKinds.some((own) => own === kind)) return words
  return `${words} of ${number === '' ? 'a step' : `step ${number}`}`
}
