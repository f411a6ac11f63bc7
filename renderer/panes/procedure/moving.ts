/** Dragging a step to another place. Pure but for the reading of boxes. */
import type { StepId } from '../../../shared/lab/ids.ts'

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

/** Whether a step dropped behind `after` would stay where it is. */
export function staysPut(order: readonly StepId[], moving: StepId, after: StepId | null): boolean {
  const at = order.indexOf(moving)
  return after === moving || (order[at - 1] ?? null) === after
}

/** The boxes of the steps of a list, as they are drawn now. */
export function boxesIn(list: HTMLElement): StepBox[] {
  return [...list.querySelectorAll<HTMLElement>(':scope > [data-step]')].map((element) => {
    const { top, bottom } = element.getBoundingClientRect()
    return { id: element.dataset.step as StepId, top, bottom }
  })
}
