/** Where rows may land and move. */
import { compareSteps, rowsUnder } from '../../lab/acts.ts'
import type { StepId } from '../../lab/ids.ts'
import { stepLevels, type Step, type StepLevel } from '../../lab/model.ts'

const depthOf = (level: StepLevel): number => stepLevels.indexOf(level)

/** The level of a new row behind another: among the sub-steps of a step it is one of them. */
export function levelBehind(steps: readonly Step[], after: StepId | null): StepLevel {
  const order = [...steps].sort(compareSteps)
  const at = order.findIndex(({ id }) => id === after)
  return at >= 0 && order[at]!.level !== 'section' && order[at + 1]?.level === 'sub-step'
    ? 'sub-step'
    : 'step'
}

/**
 * The row behind which one of a level lands that was pointed behind `after`: between a step and its sub-steps there is no
 * place but for a further sub-step, so it comes behind the last of them.
 */
export function landingBehind(
  steps: readonly Step[],
  after: Step | null,
  level: StepLevel,
  moving: ReadonlySet<StepId> = new Set(),
): Step | null {
  if (after === null || level === 'sub-step' || after.level === 'section') return after
  const order = [...steps].sort(compareSteps).filter(({ id }) => !moving.has(id) || id === after.id)
  let at = order.findIndex(({ id }) => id === after.id)
  while (order[at + 1]?.level === 'sub-step') at += 1
  return order[at] ?? after
}

/**
 * The row behind which a row with all under it comes when it goes up or down by one place among its like: a sub-step within
 * its step and on to the next one, a step over a whole step, over the heading of a section or its end, a section over a
 * whole section.
 * @returns undefined where it stands at that end already
 */
export function neighbourBehind(steps: readonly Step[], step: Step, by: -1 | 1): Step | null | undefined {
  return neighbourOfRows(steps, rowsUnder(steps, step), by)
}

/**
 * The same for rows that stand together, as `chosenRows` gives them: they go as the shallowest of them would.
 * @param rows at least one, in their order
 */
export function neighbourOfRows(
  steps: readonly Step[],
  rows: readonly Step[],
  by: -1 | 1,
): Step | null | undefined {
  const order = [...steps].sort(compareSteps)
  const level = shallowestOf(rows)
  const at = order.findIndex(({ id }) => id === rows[0]!.id)
  const isStop = (one: Step): boolean => depthOf(one.level) <= depthOf(level)
  if (by === 1) {
    const next = order[at + rows.length]
    if (!next || (level === 'sub-step' && next.level === 'section')) return undefined
    return isStop(next) && depthOf(next.level) < depthOf(level) ? next : rowsUnder(order, next).at(-1)!
  }
  if (at === 0) return undefined
  let head = at - 1
  while (head > 0 && !isStop(order[head]!)) head -= 1
  const behind = order[head - 1] ?? null
  // A sub-step stays under a step.
  return level === 'sub-step' && (behind === null || behind.level === 'section') ? undefined : behind
}

const shallowestOf = (rows: readonly Step[]): StepLevel =>
  stepLevels.find((level) => rows.some((row) => row.level === level)) ?? 'step'

/**
 * The rows from one to another, in whichever order they are named, with all that goes with them: a step its sub-steps, a
 * section its steps, and sub-steps at the head their step where steps are among them. They stand together.
 * @returns none where one of the two is not there
 */
export function chosenRows(steps: readonly Step[], from: StepId, to: StepId): Step[] {
  const order = [...steps].sort(compareSteps)
  const ends = [from, to].map((id) => order.findIndex((row) => row.id === id)).sort((a, b) => a - b)
  let [first, last] = ends as [number, number]
  if (first < 0) return []
  for (let at = first; at <= last; at++) last = Math.max(last, at + rowsUnder(order, order[at]!).length - 1)
  if (shallowestOf(order.slice(first, last + 1)) !== 'sub-step')
    while (first > 0 && order[first]!.level === 'sub-step' && order[first - 1]!.level !== 'section')
      first -= 1
  return order.slice(first, last + 1)
}

/** Why a row cannot become a sub-step of the one before, or null where it can. */
export function whyNotIndent(steps: readonly Step[], step: Step): string | null {
  if (step.level === 'section') return 'A section is a heading over steps.'
  if (step.level === 'sub-step') return 'It is a sub-step already.'
  const order = [...steps].sort(compareSteps)
  const before = order[order.findIndex(({ id }) => id === step.id) - 1]
  return before === undefined || before.level === 'section' ? 'No step stands before it here.' : null
}

/** Why a row cannot become a step, or null where it can. */
export function whyNotOutdent(step: Step): string | null {
  return step.level === 'sub-step' ? null : 'It is no sub-step.'
}

/** Rows that move together, and the row behind which they come. */
export interface RowMove {
  readonly rows: readonly Step[]
  readonly after: Step | null
}

/**
 * What moves when a row is put behind another: all that goes with it, to where its level has a place.
 * @returns null where nothing would move
 */
export function moveOf(steps: readonly Step[], step: Step, after: Step | null): RowMove | null {
  return moveOfRows(steps, rowsUnder(steps, step), after)
}

/** The same for rows that stand together. @param rows at least one, in their order */
export function moveOfRows(
  steps: readonly Step[],
  rows: readonly Step[],
  after: Step | null,
): RowMove | null {
  const order = [...steps].sort(compareSteps)
  const moving = new Set(rows.map(({ id }) => id))
  const landing = landingBehind(order, after, shallowestOf(rows), moving)
  const reach = landing ? order.findIndex(({ id }) => id === landing.id) : -1
  const low = order
    .slice(0, reach + 1)
    .filter(({ id }) => !moving.has(id))
    .at(-1)
  const at = order.findIndex(({ id }) => id === rows[0]!.id)
  return low?.id === order[at - 1]?.id ? null : { rows, after: low ?? null }
}
