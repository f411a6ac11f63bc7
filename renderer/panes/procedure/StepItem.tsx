/** One row: a numbered step, or the heading of a section. */
import { memo } from 'react'
import type { PartId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { partKindAt } from '../../../shared/distil/landing.ts'
import { StepRemarks } from '../../remarks/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { usualKind, type Comer } from './landing.ts'
import { NewFile } from './FileHead.tsx'
import { StepLandings, useDrop } from './LandingPlaces.tsx'
import type { PartMarks } from './marks.ts'
import { NoReturn } from './NoReturn.tsx'
import { setPane } from './paneStore.ts'
import { PartItem } from './PartItem.tsx'
import { pickTo } from './picked.ts'
import { keysOfStep, onRowKey } from './rowKeys.ts'
import { RowPlaceLine } from './RowPlaceLine.tsx'
import { RowTools } from './RowTools.tsx'
import { SectionItem } from './SectionItem.tsx'
import { isSameStep, type ShownStep } from './shown.ts'

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
  /** Whether it is one of several that are chosen. */
  readonly isPicked: boolean
  readonly isMoving: boolean
  /** Its place among so many rows, from 1 on, where not all of them are drawn; else null for both. */
  readonly at: number | null
  readonly of: number | null
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
    a.isPicked === b.isPicked &&
    a.isMoving === b.isMoving &&
    a.at === b.at &&
    a.of === b.of,
)

function StepItemBody(props: StepItemProps) {
  return props.shown.step.level === 'section' ? <SectionItem {...props} /> : <NumberedStep {...props} />
}

function NumberedStep(props: StepItemProps) {
  const { shown, title, isCurrent, isChosen, editing, marks, comer, steps, line, isPicked, isMoving } = props
  const { step, number, parts, place } = shown
  const workspace = useWorkspace()
  const usual = comer ? usualKind(comer, (fragment) => partKindAt(fragment)) : null
  const drop = useDrop({ at: 'step', step: step.id, ...(usual ? { kind: usual } : {}) })
  const { isOver, ...dropping } = drop
  const tabIndex = isCurrent ? 0 : -1
  const classes = [
    'st-step',
    number.includes('.') ? 'st-step--sub' : '',
    isChosen ? 'st-step--chosen' : '',
    isPicked ? 'st-step--picked' : '',
    isMoving ? 'st-step--moving' : '',
    isOver ? 'st-step--over' : '',
  ]
  return (
    <li
      role="listitem"
      className={classes.filter((one) => one !== '').join(' ')}
      aria-label={`Step ${number}${isPicked ? ', chosen' : ''}`}
      aria-keyshortcuts={keysOfStep}
      aria-posinset={props.at ?? undefined}
      aria-setsize={props.of ?? undefined}
      data-step={step.id}
      data-line={line ?? undefined}
      tabIndex={tabIndex}
      onFocus={() => setPane({ current: step.id })}
      onKeyDown={(event) => onRowKey(event, workspace, shown)}
      {...dropping}
    >
      {step.pointOfNoReturn ? <NoReturn /> : null}
      <RowPlaceLine step={step} number={number} place={place} tabIndex={tabIndex} />
      <div className="st-step-margin">
        <span
          className="st-step-number"
          // Words are not to be marked by it.
          onMouseDown={(event) => (event.shiftKey ? event.preventDefault() : undefined)}
          onClick={(event) => (event.shiftKey ? pickTo(workspace, step) : undefined)}
        >
          {number}
        </span>
        <RowTools shown={shown} name={`step ${number}`} tabIndex={tabIndex} />
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
        <NewFile step={step} />
        <StepRemarks step={step} number={number} tabIndex={tabIndex} />
        {comer ? <StepLandings comer={comer} step={step} steps={steps} /> : null}
      </div>
    </li>
  )
}
