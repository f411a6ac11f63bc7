/** The lines of the menus of sections, steps and sub-steps. */
import { nameOfPlace } from '../../../shared/distil/landing.ts'
import { rowsUnder } from '../../../shared/lab/acts.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { countRows } from '../../../shared/procedure/rows/numbers.ts'
import { neighbourBehind, whyNotIndent, whyNotOutdent } from '../../../shared/procedure/rows/order.ts'
import { lineOfRemarking } from '../../remarks/index.ts'
import { moveStepBehind, sayOfStep } from '../../store/gestures.ts'
import { stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import type { MenuLine } from '../../ui/index.ts'
import { stepPartFaces } from '../../ui/kinds.ts'
import {
  AddIcon,
  CarryIcon,
  CutIcon,
  DangerIcon,
  EarlierIcon,
  JoinIcon,
  MoveDownIcon,
  MoveUpIcon,
  PartCautionIcon,
  PasteIcon,
  PlaceIcon,
  RemoveIcon,
  TraceIcon,
} from '../../ui/icons.tsx'
import { addStepAfter, addSubStep, moveBy, openPartOf, sayPlaceOf, shiftLevel, takeStepAway } from './acts.ts'
import { cutRow, putCut, whyNotPut, wordsOfCut } from './cutting.ts'
import { joinWith, whyNotJoinWith } from './dividing.ts'
import { carryAndEnd } from './landing.ts'
import { setPane, stayingAtRow } from './paneStore.ts'
import { missingKinds, type ShownStep } from './shown.ts'
import { restsOn } from './words.ts'

const rule = (id: string): MenuLine => ({ kind: 'rule', id })

/** All that can be done with a row. */
export function linesOfStep(workspace: Workspace, shown: ShownStep): MenuLine[] {
  const { step, parts } = shown
  if (step.level === 'section')
    return [
      ...linesOfAdding(workspace, step),
      rule('r1'),
      ...linesOfMoving(workspace, shown),
      rule('r2'),
      ...linesOfRemoving(workspace, step),
    ]
  const links = parts.flatMap((part) => part.links.map(({ link }) => link))
  return [
    { kind: 'heading', id: 'rests', word: restsOn(links) },
    ...traceOfStep(workspace, step),
    ...carryOnto(workspace, step),
    ...linesOfParts(workspace, shown),
    rule('r0'),
    {
      id: 'place',
      word: step.place ? 'Change its place…' : 'Say its place…',
      icon: PlaceIcon,
      hint: 'Alt+P',
      onChoose: () => setPane({ placing: step.id }),
    },
    {
      id: 'no return',
      word: step.pointOfNoReturn ? 'It is no point of no return' : 'Make it the point of no return',
      icon: DangerIcon,
      onChoose: () => void sayOfStep(workspace, step, { pointOfNoReturn: !step.pointOfNoReturn }),
    },
    lineOfRemarking(step.id),
    rule('r1'),
    ...linesOfAdding(workspace, step),
    ...linesOfMoving(workspace, shown),
    rule('r2'),
    ...linesOfRemoving(workspace, step),
  ]
}

/** Said so that a person who has not learnt the kinds finds what is meant. */
const wordOfAdding: Readonly<Record<ReturnType<typeof missingKinds>[number], string>> = {
  condition: 'Add when it is to be done',
  'done already': 'Add how to tell that it is done',
  caution: 'Add caution',
  do: 'Add what to do',
  file: 'Add file',
  expect: 'Add what to expect',
  'if it fails': 'Add what to do if it fails',
  hold: 'Add hold point',
  undo: 'Add how to undo it',
  why: 'Add why',
}

function linesOfParts(workspace: Workspace, shown: ShownStep): MenuLine[] {
  const { step } = shown
  return [
    ...missingKinds(shown).map((kind) => ({
      id: `add ${kind}`,
      word: wordOfAdding[kind],
      icon: stepPartFaces[kind].icon,
      onChoose: () =>
        kind === 'file' ? setPane({ naming: step.id }) : void openPartOf(workspace, step, kind),
    })),
    {
      id: 'ready',
      word: 'Ready caution…',
      icon: PartCautionIcon,
      onChoose: () => setPane({ readyFor: step.id }),
    },
  ]
}

function linesOfAdding(workspace: Workspace, step: Step): MenuLine[] {
  const { procedure, level } = step
  const section: MenuLine = {
    id: 'section',
    word: 'Add a section after this',
    onChoose: () => void addStepAfter(workspace, procedure, lastUnder(workspace, step), 'section'),
  }
  const after: MenuLine = {
    id: 'after',
    word: level === 'section' ? 'Add a step in it' : 'Add a step after this',
    icon: AddIcon,
    onChoose: () => void addStepAfter(workspace, procedure, step, 'step'),
  }
  if (level === 'section') return [after, section]
  const sub: MenuLine = {
    id: 'sub',
    word: level === 'step' ? 'Add a sub-step' : 'Add a sub-step after this',
    icon: AddIcon,
    onChoose: () =>
      level === 'step'
        ? void addSubStep(workspace, step)
        : void addStepAfter(workspace, procedure, step, 'sub-step'),
  }
  return [after, sub, section]
}

const lastUnder = (workspace: Workspace, step: Step): Step =>
  rowsUnder(stepsOf(workspace.requireView(), step.procedure), step).at(-1) ?? step

function traceOfStep(workspace: Workspace, { id }: Step): MenuLine[] {
  const trace = (view: 'back' | 'life') => workspace.set({ traced: { kind: 'step', id, view } })
  return [
    { id: 'trace', word: 'Trace', icon: TraceIcon, hint: 'Alt+T', onChoose: () => trace('back') },
    { id: 'life', word: 'Its life', icon: EarlierIcon, onChoose: () => trace('life') },
  ]
}

/** What was picked elsewhere can land here at once. */
function carryOnto(workspace: Workspace, step: Step): MenuLine[] {
  const { carrying } = workspace.state
  if (!carrying) return []
  const place = { at: 'step', step: step.id } as const
  const steps = stepsOf(workspace.requireView(), step.procedure)
  return [
    {
      id: 'carry',
      word: `Carry here: ${nameOfPlace(place, carrying, steps)}`,
      icon: CarryIcon,
      onChoose: () => void carryAndEnd(workspace, carrying, place, 'button'),
    },
  ]
}

/** The ways to move a row without dragging it; all under it goes along. */
export function linesOfMoving(workspace: Workspace, { step }: Pick<ShownStep, 'step'>): MenuLine[] {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  const atEnd = (by: -1 | 1) =>
    neighbourBehind(steps, step, by) === undefined ? { disabledBecause: whyNot(step, by) } : {}
  const isFirst = steps[0]?.id === step.id ? { disabledBecause: whyNot(step, -1) } : {}
  const isLast =
    lastUnder(workspace, step).id === steps.at(-1)?.id ? { disabledBecause: whyNot(step, 1) } : {}
  const moveTo = async (after: Step | null): Promise<void> => {
    const stays = stayingAtRow()
    if (await moveStepBehind(workspace, step, after)) sayPlaceOf(workspace, step, stays())
  }
  const ends: MenuLine[] = [
    { id: 'first', word: 'Move to the start', ...isFirst, onChoose: () => void moveTo(null) },
    { id: 'last', word: 'Move to the end', ...isLast, onChoose: () => void moveTo(steps.at(-1) ?? null) },
  ]
  return [
    {
      id: 'up',
      word: 'Move up',
      icon: MoveUpIcon,
      hint: 'Alt+↑',
      ...atEnd(-1),
      onChoose: () => void moveBy(workspace, step, -1),
    },
    {
      id: 'down',
      word: 'Move down',
      icon: MoveDownIcon,
      hint: 'Alt+↓',
      ...atEnd(1),
      onChoose: () => void moveBy(workspace, step, 1),
    },
    ...(step.level === 'sub-step' ? [] : ends),
    ...linesOfLevel(workspace, steps, step),
    ...linesOfCutting(workspace, step),
    ...linesOfJoining(workspace, step),
  ]
}

function linesOfCutting(workspace: Workspace, step: Step): MenuLine[] {
  const cut: MenuLine = {
    id: 'cut',
    word: 'Cut',
    icon: CutIcon,
    hint: 'Ctrl+X',
    onChoose: () => cutRow(workspace, step),
  }
  const what = wordsOfCut(workspace)
  if (what === null) return [cut]
  const why = whyNotPut(workspace, step)
  const put: MenuLine = {
    id: 'put',
    word: `Put here: ${what}`,
    icon: PasteIcon,
    hint: 'Ctrl+V',
    ...(why === null ? {} : { disabledBecause: why }),
    onChoose: () => void putCut(workspace, step),
  }
  return [cut, put]
}

function linesOfJoining(workspace: Workspace, step: Step): MenuLine[] {
  if (step.level === 'section') return []
  const line = (by: -1 | 1): MenuLine => {
    const why = whyNotJoinWith(workspace, step, by)
    return {
      id: by === 1 ? 'join behind' : 'join before',
      word: by === 1 ? 'Join with the step behind' : 'Join with the step before',
      icon: JoinIcon,
      hint: by === 1 ? 'Alt+Shift+↓' : 'Alt+Shift+↑',
      ...(why === null ? {} : { disabledBecause: why }),
      onChoose: () => void joinWith(workspace, step, by),
    }
  }
  return [line(-1), line(1)]
}

function linesOfLevel(workspace: Workspace, steps: readonly Step[], step: Step): MenuLine[] {
  if (step.level === 'section') return []
  const [notIn, notOut] = [whyNotIndent(steps, step), whyNotOutdent(step)]
  return step.level === 'step'
    ? [
        {
          id: 'in',
          word: 'Make it a sub-step',
          hint: 'Alt+→',
          ...(notIn === null ? {} : { disabledBecause: notIn }),
          onChoose: () => void shiftLevel(workspace, step, 1),
        },
      ]
    : [
        {
          id: 'out',
          word: 'Make it a step',
          hint: 'Alt+←',
          ...(notOut === null ? {} : { disabledBecause: notOut }),
          onChoose: () => void shiftLevel(workspace, step, -1),
        },
      ]
}

const ends = { '-1': 'first', '1': 'last' } as const

function whyNot({ level }: Step, by: -1 | 1): string {
  if (level === 'sub-step') return 'No other step is there to go to.'
  return `It is the ${ends[by]} ${level}.`
}

function linesOfRemoving(workspace: Workspace, step: Step): MenuLine[] {
  const rows = rowsUnder(stepsOf(workspace.requireView(), step.procedure), step)
  const whole: MenuLine = {
    id: 'remove',
    word: `Remove ${countRows(rows).toLowerCase()}`,
    icon: RemoveIcon,
    onChoose: () => void takeStepAway(workspace, step),
  }
  if (step.level !== 'section' || rows.length === 1) return [whole]
  const alone: MenuLine = {
    id: 'remove alone',
    word: 'Remove the heading alone',
    icon: RemoveIcon,
    onChoose: () => void takeStepAway(workspace, step, true),
  }
  return [alone, whole]
}
