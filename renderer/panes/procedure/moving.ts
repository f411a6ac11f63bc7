/** Dragging a step to another place. Pure but for the reading of boxes. */
import type { ProcedureId, StepId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'

export interface StepBox {
  readonly id: StepId
  /** Pixels; only differences count. */
  readonly top: number
  readonly bottom: number
}

/**
 * The step behind which a thing dropped at a height would land: the last whose middle lies above it; null for the head.
 * @param boxes the steps' boxes from top to bottom
 */
export function stepAbove(boxes: readonly StepBox[], y: number): StepId | null {
  return boxes.filter(({ top, bottom }) => (top + bottom) / 2 < y).at(-1)?.id ?? null
}

/** The boxes of the steps of a list, as they are drawn now. */
export function boxesIn(list: HTMLElement): StepBox[] {
  return [...list.querySelectorAll<HTMLElement>('[data-step]')].map((element) => {
    const { top, bottom } = element.getBoundingClientRect()
    return { id: element.dataset.step as StepId, top, bottom }
  })
}

/** The place of a new step behind a row; null for the head. */
export const endOf = (procedure: ProcedureId, last: Pick<Step, 'id'> | null) =>
  ({ at: 'new step', procedure, after: last?.id ?? null }) as const
