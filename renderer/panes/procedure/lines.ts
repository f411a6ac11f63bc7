/** The lines of the menus of steps and parts. */
import type { Step } from '../../../shared/lab/model.ts'
import { nameOfPlace } from '../../../shared/distil/landing.ts'
import type { MenuLine } from '../../ui/index.ts'
import { stepPartFaces } from '../../ui/kinds.ts'
import {
  AddIcon,
  AmendIcon,
  CarryIcon,
  CopyIcon,
  MoveDownIcon,
  MoveUpIcon,
  RemoveIcon,
  StrikeOutIcon,
  TraceIcon,
} from '../../ui/icons.tsx'
import { moveStepBehind } from '../../store/gestures.ts'
import { stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import {
  activate,
  addStepAfter,
  copyFragment,
  moveBy,
  openPartOf,
  sayPlaceOf,
  takePartAway,
  takeStepAway,
} from './acts.ts'
import { carryAndEnd } from './landing.ts'
import { setPane } from './paneStore.ts'
import { pickFromPart } from './pick.ts'
import { missingKinds, tracedPartOf, type ShownPart, type ShownStep } from './shown.ts'
import { restsOn } from './words.ts'

const rule = (id: string): MenuLine => ({ kind: 'rule', id })

/** All that can be done with a step. */
export function linesOfStep(workspace: Workspace, shown: ShownStep): MenuLine[] {
  const { step, parts } = shown
  const links = parts.flatMap((part) => part.links.map(({ link }) => link))
  return [
    { kind: 'heading', id: 'rests', word: restsOn(links) },
    ...traceOfStep(workspace, shown),
    ...carryOnto(workspace, step),
    ...missingKinds(shown).map((kind) => ({
      id: `add ${kind}`,
      word: `Add ${kind}`,
      icon: stepPartFaces[kind].icon,
      onChoose: () => void openPartOf(workspace, step, kind),
    })),
    rule('r1'),
    {
      id: 'after',
      word: 'Add a step after this',
      icon: AddIcon,
      onChoose: () => void addStepAfter(workspace, step.procedure, step),
    },
    ...linesOfMoving(workspace, shown),
    rule('r2'),
    {
      id: 'remove',
      word: 'Remove step',
      icon: RemoveIcon,
      onChoose: () => void takeStepAway(workspace, step),
    },
  ]
}

function traceOfStep(workspace: Workspace, shown: ShownStep): MenuLine[] {
  const part = tracedPartOf(shown)?.part
  if (!part) return []
  const onChoose = () => workspace.set({ traced: { kind: 'part', id: part.id } })
  return [{ id: 'trace', word: 'Trace', icon: TraceIcon, hint: 'Alt+T', onChoose }]
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

/** The four ways to move a step without dragging it. */
export function linesOfMoving(workspace: Workspace, { step }: Pick<ShownStep, 'step'>): MenuLine[] {
  const steps = stepsOf(workspace.requireView(), step.procedure)
  const at = steps.findIndex(({ id }) => id === step.id)
  const isFirst = at === 0 ? { disabledBecause: 'It is the first step.' } : {}
  const isLast = at === steps.length - 1 ? { disabledBecause: 'It is the last step.' } : {}
  const moveTo = async (after: Step | null): Promise<void> => {
    if (await moveStepBehind(workspace, step, after)) sayPlaceOf(workspace, step)
  }
  return [
    {
      id: 'up',
      word: 'Move up',
      icon: MoveUpIcon,
      hint: 'Alt+↑',
      ...isFirst,
      onChoose: () => void moveBy(workspace, step, -1),
    },
    {
      id: 'down',
      word: 'Move down',
      icon: MoveDownIcon,
      hint: 'Alt+↓',
      ...isLast,
      onChoose: () => void moveBy(workspace, step, 1),
    },
    { id: 'first', word: 'Move to the start', ...isFirst, onChoose: () => void moveTo(null) },
    { id: 'last', word: 'Move to the end', ...isLast, onChoose: () => void moveTo(steps.at(-1) ?? null) },
  ]
}

/** All that can be done with a part. `title` is the procedure's. */
export function linesOfPart(workspace: Workspace, { part, text }: ShownPart, title: string): MenuLine[] {
  const node = { kind: 'part', id: part.id } as const
  const fragment = pickFromPart(workspace.requireLab().id, part, text, title)
  const isEmpty = fragment ? {} : { disabledBecause: 'It is empty.' }
  return [
    {
      id: 'edit',
      word: 'Edit',
      icon: AmendIcon,
      hint: 'Enter',
      onChoose: () => void activate(workspace, part.id),
    },
    {
      id: 'trace',
      word: 'Trace',
      icon: TraceIcon,
      hint: 'Alt+T',
      onChoose: () => workspace.set({ traced: node }),
    },
    {
      id: 'carry',
      word: 'Carry…',
      icon: CarryIcon,
      hint: 'Alt+C',
      ...isEmpty,
      onChoose: () => workspace.set({ carrying: fragment }),
    },
    {
      id: 'copy',
      word: 'Copy',
      icon: CopyIcon,
      ...isEmpty,
      onChoose: () => fragment && copyFragment(workspace, fragment),
    },
    rule('r'),
    {
      id: 'strike',
      word: 'Strike out…',
      icon: StrikeOutIcon,
      isDanger: true,
      ...isEmpty,
      onChoose: () => setPane({ striking: { node, text } }),
    },
    ...(part.step === null
      ? []
      : [
          {
            id: 'remove',
            word: 'Remove part',
            icon: RemoveIcon,
            onChoose: () => void takePartAway(workspace, part),
          },
        ]),
  ]
}
