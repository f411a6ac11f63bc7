/** The procedure as a printed instruction: title, purpose, numbered steps. */
import { Fragment, useEffect, useMemo, useRef, useState, type DragEvent, type KeyboardEvent } from 'react'
import type { ProcedureId, StepId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { moveStepBehind } from '../../store/gestures.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { ProjectView } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button } from '../../ui/index.ts'
import { AddIcon } from '../../ui/icons.tsx'
import { nextPlace } from '../../ui/roving.ts'
import { isTypingOutside } from '../typing.ts'
import { addStepAtEnd, sayPlaceOf } from './acts.ts'
import { broughtBy, land, STEP_TYPE } from './landing.ts'
import { GapLanding, useComer } from './LandingPlaces.tsx'
import { useFollowedFocus, type PartMarks } from './marks.ts'
import { boxesIn, staysPut, stepAbove } from './moving.ts'
import { OwnPart } from './OwnPart.tsx'
import { setPane, usePane } from './paneStore.ts'
import type { ShownProcedure } from './shown.ts'
import { StepItem } from './StepItem.tsx'
import { takesDragOver, useEndOfVisit } from './visits.ts'
import { untitled } from './words.ts'

export interface ProcedureProps {
  readonly view: ProjectView
  readonly shown: ShownProcedure
}

export function Procedure({ view, shown }: ProcedureProps) {
  const workspace = useWorkspace()
  const root = useRef<HTMLElement>(null)
  const marks = useFollowedFocus(workspace, view)
  const title = shown.title?.text.trim() || untitled
  useWantedFocus(root)
  useEndOfVisit()
  return (
    <article
      ref={root}
      className="st-procedure"
      aria-label={title}
      onDragOver={(event) => void takesDragOver(event)}
      onDrop={(event) => onDropOnWhole(event, workspace, shown)}
    >
      {shown.title ? <OwnPart shown={shown.title} title={title} marks={marks} /> : null}
      {shown.purpose ? <OwnPart shown={shown.purpose} title={title} marks={marks} /> : null}
      <Steps shown={shown} title={title} marks={marks} />
      <Button icon={AddIcon} data-add-step onClick={() => void addStepAtEnd(workspace, shown.id)}>
        Add a step
      </Button>
      <Said />
    </article>
  )
}

/** Beside all steps it lands at the end. */
function onDropOnWhole(event: DragEvent, workspace: Workspace, shown: ShownProcedure): void {
  if (!broughtBy(event.dataTransfer)) return
  land(workspace, event, endOf(shown.id, shown.steps.at(-1)?.step ?? null))
}

const endOf = (procedure: ProcedureId, last: Step | null) =>
  ({ at: 'new step', procedure, after: last?.id ?? null }) as const

interface StepsProps {
  readonly shown: ShownProcedure
  readonly title: string
  readonly marks: PartMarks | null
}

const noSteps: readonly Step[] = []

function Steps({ shown, title, marks }: StepsProps) {
  const workspace = useWorkspace()
  const { editing, current, moving } = usePane()
  const comer = useComer()
  const records = useMemo(() => shown.steps.map(({ step }) => step), [shown])
  const steps = comer ? records : noSteps
  const { line, ...moves } = useMoves(workspace, records, moving)
  const stop = shown.steps.some(({ step }) => step.id === current) ? current : shown.steps[0]?.step.id
  return (
    <ol
      className="st-steps"
      aria-label="Steps"
      onKeyDown={(event) =>
        focusNeighbour(
          event,
          shown.steps.map(({ step }) => step.id),
        )
      }
      {...moves}
    >
      {comer ? <GapLanding comer={comer} place={endOf(shown.id, null)} steps={steps} /> : null}
      {shown.steps.map((one, i) => (
        <Fragment key={one.step.id}>
          <StepItem
            shown={one}
            title={title}
            isCurrent={one.step.id === stop}
            isChosen={one.step.id === current}
            editing={one.parts.some(({ part }) => part.id === editing) ? editing : null}
            marks={one.parts.some(({ part }) => part.id === marks?.part) ? marks : null}
            comer={comer}
            steps={steps}
            line={lineAt(line, one.step.id, i)}
            isMoving={moving === one.step.id}
          />
          {comer ? <GapLanding comer={comer} place={endOf(shown.id, one.step)} steps={steps} /> : null}
        </Fragment>
      ))}
    </ol>
  )
}

type Line = { readonly after: StepId | null } | null

function lineAt(line: Line, step: StepId, index: number): 'above' | 'below' | null {
  if (!line) return null
  if (line.after === null) return index === 0 ? 'above' : null
  return line.after === step ? 'below' : null
}

/** Dragging steps within the list. */
function useMoves(workspace: Workspace, steps: readonly Step[], moving: StepId | null) {
  const [line, setLine] = useState<Line>(null)
  const order = steps.map(({ id }) => id)
  const step = steps.find(({ id }) => id === moving)
  return {
    line: step ? line : null,
    onDragOver: (event: DragEvent<HTMLElement>) => {
      if (!step || !event.dataTransfer.types.includes(STEP_TYPE)) return
      event.preventDefault()
      event.stopPropagation()
      event.dataTransfer.dropEffect = 'move'
      const after = stepAbove(boxesIn(event.currentTarget), event.clientY)
      setLine(staysPut(order, step.id, after) ? null : { after })
    },
    onDragLeave: (event: DragEvent<HTMLElement>) => {
      if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setLine(null)
    },
    onDrop: (event: DragEvent<HTMLElement>) => {
      setLine(null)
      if (!step || !event.dataTransfer.types.includes(STEP_TYPE)) return
      event.preventDefault()
      event.stopPropagation()
      const after = stepAbove(boxesIn(event.currentTarget), event.clientY)
      setPane({ moving: null })
      if (staysPut(order, step.id, after)) return
      const behind = steps.find(({ id }) => id === after) ?? null
      void moveStepBehind(workspace, step, behind).then((isMoved) => {
        if (isMoved) sayPlaceOf(workspace, step)
      })
    },
  }
}

/** Arrows, Home and End go from step to step, from wherever in a step the keyboard is; not out of a text being typed. */
function focusNeighbour(event: KeyboardEvent<HTMLElement>, order: readonly StepId[]): void {
  if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
  if (!(event.target instanceof Element)) return
  if (event.target.closest('.cm-editor, input, textarea, [role="menu"]')) return
  const from = event.target.closest<HTMLElement>('[data-step]')?.dataset.step as StepId | undefined
  const next = nextPlace(event.key, from ? order.indexOf(from) : -1, order.length, 'vertical')
  if (next === null) return
  event.preventDefault()
  event.currentTarget.querySelector<HTMLElement>(`[data-step="${order[next]!}"]`)?.focus()
}

/** Moves the keyboard's focus to where an act wants it, as soon as that is drawn. */
function useWantedFocus(root: { readonly current: HTMLElement | null }): void {
  const wanted = usePane((state) => state.wanted)
  useEffect(() => {
    if (!wanted) return
    const selector = {
      step: () => `[data-step="${'id' in wanted ? wanted.id : ''}"]`,
      part: () => `.st-part-read[data-node="${'id' in wanted ? wanted.id : ''}"]`,
      'new step': () => '[data-add-step]',
    }[wanted.kind]()
    const element = root.current?.querySelector<HTMLElement>(selector)
    if (!element) return
    // An act takes a moment; who has begun to type elsewhere meanwhile is left there.
    const pane = element.closest<HTMLElement>('.st-pane') ?? element
    if (!isTypingOutside(pane) && !isInText(document.activeElement)) element.focus()
    setPane({ wanted: null })
  })
}

const isInText = (element: Element | null): boolean =>
  element !== null && element.closest('.st-editor, .st-early') !== null

/** What an act changed, for those who listen. */
function Said() {
  const said = usePane((state) => state.said)
  return (
    <div className="st-unseen" role="status">
      {said}
    </div>
  )
}
