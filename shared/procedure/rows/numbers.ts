/** The numbers of steps. */
import { compareSteps } from '../../lab/acts.ts'
import type { StepId } from '../../lab/ids.ts'
import { procedurePartKinds, type PartKind, type Step, type StepLevel } from '../../lab/model.ts'

/** The numbers of rows of these levels, in order: `3`, or `3.1` for a sub-step; empty for a section. */
export function numbersOfLevels(levels: readonly StepLevel[]): string[] {
  let step = 0
  let sub = 0
  // A sub-step at the head of a procedure or of a section has no step to belong to.
  let isUnderStep = false
  return levels.map((level) => {
    if (level === 'section') {
      isUnderStep = false
      return ''
    }
    if (level === 'sub-step' && isUnderStep) return `${step}.${(sub += 1)}`
    step += 1
    sub = 0
    isUnderStep = true
    return String(step)
  })
}

/** The number of each row by its id. @param steps in any order */
export function rowNumbers(steps: readonly Step[]): Map<StepId, string> {
  const order = [...steps].sort(compareSteps)
  const numbers = numbersOfLevels(order.map(({ level }) => level))
  return new Map(order.map(({ id }, i) => [id, numbers[i]!]))
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
