/** One numbered step. */
import { memo, useRef, useState, type KeyboardEvent } from 'react'
import type { PartId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { partKindAt } from '../../../shared/distil/landing.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { MenuAt, type Box } from '../../ui/index.ts'
import { DragHandleIcon } from '../../ui/icons.tsx'
import { moveBy, openPartOf } from './acts.ts'
import { STEP_TYPE, usualKind, type Comer } from './landing.ts'
import { StepLandings, useDrop } from './LandingPlaces.tsx'
import { linesOfMoving, linesOfStep } from './lines.ts'
import { MenuButton } from './MenuButton.tsx'
import type { PartMarks } from './marks.ts'
import { setPane } from './paneStore.ts'
import { PartItem } from './PartItem.tsx'
import { isSameStep, tracedPartOf, type ShownStep } from './shown.ts'

export interface StepItemProps {
  readonly shown: ShownStep
  /** The procedure's title. */
  readonly title: string
  /** The step that holds the list's stop for Tab. */
  readonly isCurrent: boolean
  readonly isChosen: boolean
  /** The part of this step that is being typed. */
  readonly editing: PartId | null
  /** Words to mark in one of its parts. */
  readonly marks: PartMarks | null
  /** What could land on it right now. */
  readonly comer: Comer | null
  /** All steps, for the names of places; empty while nothing can land. */
  readonly steps: readonly Step[]
  /** Where a line shows that a moved step would land. */
  readonly line: 'above' | 'below' | null
  readonly isMoving: boolean
}

export const StepItem = memo(
  StepItemBody,
  (a, b) =>
    isSameStep(a.shown, b.shown) &&
    a.title === b.title &&
    a.isCurrent === b.isCurrent &&
    a.isChosen === b.isChosen &&
    a.editing === b.editing &&
    a.marks === b.marks &&
    a.comer === b.comer &&
    a.steps === b.steps &&
    a.line === b.line &&
    a.isMoving === b.isMoving,
)

function StepItemBody(props: StepItemProps) {
  const { shown, title, isCurrent, isChosen, editing, marks, comer, steps, line, isMoving } = props
  const { step, number, parts } = shown
  const workspace = useWorkspace()
  const usual = comer ? usualKind(comer, (fragment) => partKindAt(fragment)) : null
  const drop = useDrop({ at: 'step', step: step.id, ...(usual ? { kind: usual } : {}) })
  const { isOver, ...dropping } = drop
  const classes = [
    'st-step',
    isChosen ? 'st-step--chosen' : '',
    isMoving ? 'st-step--moving' : '',
    isOver ? 'st-step--over' : '',
  ]
  return (
    <li
      className={classes.filter((one) => one !== '').join(' ')}
      aria-label={`Step ${number}`}
      aria-keyshortcuts="Enter F2 Alt+ArrowUp Alt+ArrowDown Alt+T"
      data-step={step.id}
      data-line={line ?? undefined}
      tabIndex={isCurrent ? 0 : -1}
      onFocus={() => setPane({ current: step.id })}
      onKeyDown={(event) => onKey(event, workspace, shown)}
      {...dropping}
    >
      <div className="st-step-margin">
        <span className="st-step-number">{number}</span>
        <span className="st-step-tools">
          <MoveHandle shown={shown} tabIndex={isCurrent ? 0 : -1} />
          <MenuButton
            label={`More for step ${number}`}
            lines={() => linesOfStep(workspace, shown)}
            tabIndex={isCurrent ? 0 : -1}
          />
        </span>
      </div>
      <div className="st-step-parts">
        {parts.map((part) => (
          <PartItem
            key={part.part.id}
            shown={part}
            number={number}
            title={title}
            isEditing={editing === part.part.id}
            marks={marks?.part === part.part.id ? marks.ranges : undefined}
            isInReach={isCurrent}
          />
        ))}
        {comer ? <StepLandings comer={comer} step={step} steps={steps} /> : null}
      </div>
    </li>
  )
}

/** Drags the step; pressed, it offers the same moves as a menu. */
function MoveHandle({ shown, tabIndex }: { readonly shown: ShownStep; readonly tabIndex: number }) {
  const workspace = useWorkspace()
  const [at, setAt] = useState<Box | null>(null)
  const wasOpen = useRef(false)
  const { step, number } = shown
  return (
    <>
      <button
        type="button"
        className="st-handle"
        aria-label={`Move step ${number}`}
        aria-haspopup="menu"
        aria-expanded={at !== null}
        tabIndex={tabIndex}
        draggable
        onPointerDown={() => {
          wasOpen.current = at !== null
        }}
        onClick={(event) => {
          if (!wasOpen.current) setAt(event.currentTarget.getBoundingClientRect())
          wasOpen.current = false
        }}
        onDragStart={(event) => {
          event.stopPropagation()
          event.dataTransfer.setData(STEP_TYPE, step.id)
          event.dataTransfer.effectAllowed = 'move'
          const whole = event.currentTarget.closest('li')
          if (whole) event.dataTransfer.setDragImage(whole, 20, 20)
          setTimeout(() => setPane({ moving: step.id }))
        }}
        onDragEnd={() => setPane({ moving: null })}
      >
        <DragHandleIcon />
      </button>
      {at ? (
        <MenuAt
          label={`Move step ${number}`}
          lines={linesOfMoving(workspace, shown)}
          at={at}
          onClose={() => setAt(null)}
        />
      ) : null}
    </>
  )
}

type Keys = KeyboardEvent<HTMLLIElement>

function onKey(event: Keys, workspace: ReturnType<typeof useWorkspace>, shown: ShownStep): void {
  if (event.defaultPrevented || isWithinText(event.target)) return
  const act = actOfKey(event)
  if (!act) return
  event.preventDefault()
  const { step } = shown
  switch (act) {
    case 'up':
      return void moveBy(workspace, step, -1)
    case 'down':
      return void moveBy(workspace, step, 1)
    case 'write':
      return void openPartOf(workspace, step, 'do')
    case 'out':
      return event.currentTarget.focus()
    case 'trace': {
      const part = tracedPartOf(shown)?.part
      if (part) workspace.set({ traced: { kind: 'part', id: part.id } })
    }
  }
}

function actOfKey(event: Keys): 'up' | 'down' | 'write' | 'out' | 'trace' | null {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return null
  if (event.altKey) {
    if (event.key === 'ArrowUp') return 'up'
    if (event.key === 'ArrowDown') return 'down'
    return event.code === 'KeyT' ? 'trace' : null
  }
  const isOnStep = event.target === event.currentTarget
  if (isOnStep && (event.key === 'Enter' || event.key === 'F2')) return 'write'
  return !isOnStep && event.key === 'Escape' ? 'out' : null
}

/** Keys belong to the text that is being typed, and to an open menu. */
function isWithinText(target: EventTarget): boolean {
  return target instanceof Element && target.closest('.cm-editor, input, textarea, [role="menu"]') !== null
}
