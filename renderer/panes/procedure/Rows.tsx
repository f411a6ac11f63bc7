/** The rows of a procedure: sections, steps and sub-steps in one list. */
import { Fragment, useMemo, useRef, useState, type DragEvent, type KeyboardEvent } from 'react'
import { rowsUnder } from '../../../shared/lab/acts.ts'
import type { PartId, StepId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { moveOfRows } from '../../../shared/procedure/rows/order.ts'
import { moveStepBehind } from '../../store/gestures.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { isWritingOn } from '../../remarks/index.ts'
import { nextPlace } from '../../ui/roving.ts'
import { sayPlaceOf } from './acts.ts'
import { blocksOf } from './blocks.ts'
import { STEP_TYPE } from './landing.ts'
import { GapLanding, useComer } from './LandingPlaces.tsx'
import type { PartMarks } from './marks.ts'
import { CutBar } from './CutBar.tsx'
import { boxesIn, endOf, stepAbove } from './moving.ts'
import { setPane, stayingAtRow, usePane } from './paneStore.ts'
import { moveRowsBehind, pickedIn, pickNone } from './picked.ts'
import { PickedRows } from './PickedRows.tsx'
import type { ShownProcedure, ShownStep } from './shown.ts'
import { StepItem } from './StepItem.tsx'
import { useNear, type Near } from './useNear.ts'

export interface RowsProps {
  readonly shown: ShownProcedure
  readonly title: string
  readonly marks: PartMarks | null
}

/** Of a row that was not yet drawn, in rem. */
const USUAL_HEIGHT = 16
/** Procedures with more rows than this are drawn only where they are in or near the view. */
const MOST_DRAWN = 60

const noSteps: readonly Step[] = []

export function Rows({ shown, title, marks }: RowsProps) {
  const workspace = useWorkspace()
  const { editing, current, moving, picked, wanted, cut, placing, naming } = usePane()
  const comer = useComer()
  const records = useMemo(() => shown.steps.map(({ step }) => step), [shown])
  const steps = comer ? records : noSteps
  const rows = useMemo(() => pickedIn(records, picked), [records, picked])
  const pickedIds = useMemo(() => new Set(rows.map(({ id }) => id)), [rows])
  const { line, ...moves } = useMoves(workspace, records, moving, rows)
  const isCutRow = (id: StepId): boolean => cut?.kind === 'rows' && cut.rows.includes(id)
  const isLong = shown.steps.length > MOST_DRAWN
  const blocks = useMemo(() => blocksOf(shown.steps), [shown])
  const list = useRef<HTMLOListElement>(null)
  const near = useNear(list, isLong)
  const stop = shown.steps.some(({ step }) => step.id === current) ? current : shown.steps[0]?.step.id
  // Where the keyboard is or is to go, what is typed – also in a form – and what is dragged stays drawn, whatever is in
  // view. What is typed is asked for as rows go out of view, so it needs no listening to.
  const isHeld = ({ step, parts }: ShownStep): boolean =>
    step.id === stop ||
    step.id === moving ||
    step.id === placing ||
    step.id === naming ||
    parts.some(({ part }) => part.id === editing || part.id === naming) ||
    isWritingOn(step.id) ||
    (wanted !== null && 'id' in wanted && isOneOf(wanted.id, step, parts))
  const isDrawn = (rows: readonly ShownStep[]): boolean =>
    !isLong || rows.some((row) => near.isNear(row.step.id) || isHeld(row))
  const drawRow = (one: ShownStep, index: number) => (
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
        line={lineAt(line, one.step.id, index)}
        at={isLong ? index + 1 : null}
        of={isLong ? shown.steps.length : null}
        isPicked={pickedIds.has(one.step.id)}
        isMoving={
          moving === one.step.id ||
          isCutRow(one.step.id) ||
          (moving !== null && pickedIds.has(moving) && pickedIds.has(one.step.id))
        }
      />
      {comer ? <GapLanding comer={comer} place={endOf(shown.id, one.step)} steps={steps} /> : null}
    </Fragment>
  )
  return (
    <>
      <CutBar />
      <PickedRows procedure={shown.id} steps={records} rows={rows} />
      <ol
        ref={list}
        role="list"
        className={comer ? 'st-steps st-steps--landing' : 'st-steps'}
        aria-label="Steps"
        onPointerDown={(event) => {
          if (!event.shiftKey && !isOnTools(event.target)) pickNone()
        }}
        onKeyDown={(event) =>
          focusNeighbour(
            event,
            shown.steps.map(({ step }) => step.id),
          )
        }
        {...moves}
      >
        {comer ? <GapLanding comer={comer} place={endOf(shown.id, null)} steps={steps} /> : null}
        {/* All in one list: a row that moves, however far, is the same one still, with the keyboard and what is typed. */}
        {blocks.flatMap(({ key, rows: inBlock, start }) =>
          isDrawn(inBlock)
            ? inBlock.map((one, i) => drawRow(one, start + i))
            : [<Place key={`place ${key}`} rows={inBlock} near={near} />],
        )}
      </ol>
    </>
  )
}

const isOneOf = (id: StepId | PartId, step: Step, parts: ShownStep['parts']): boolean =>
  id === step.id || parts.some(({ part }) => part.id === id)

/** The place that rows take which are not drawn. */
function Place({ rows, near }: { readonly rows: readonly ShownStep[]; readonly near: Near }) {
  const ids = rows.map(({ step }) => step.id)
  const heights = ids.map((id) => near.heightOf(id))
  const known = heights.filter((height) => height !== null)
  const blockSize = `calc(${known.reduce((sum, height) => sum + height, 0)}px + ${(ids.length - known.length) * USUAL_HEIGHT}rem)`
  return <li role="presentation" data-rows={ids.join(' ')} style={{ blockSize }} />
}

type Line = { readonly after: StepId | null } | null

function lineAt(line: Line, step: StepId, index: number): 'above' | 'below' | null {
  if (!line) return null
  if (line.after === null) return index === 0 ? 'above' : null
  return line.after === step ? 'below' : null
}

/** Dragging rows within the list. */
function useMoves(
  workspace: Workspace,
  steps: readonly Step[],
  moving: StepId | null,
  picked: readonly Step[],
) {
  const [line, setLine] = useState<Line>(null)
  const step = steps.find(({ id }) => id === moving)
  // A chosen row takes all that are chosen along.
  const together =
    step && picked.some(({ id }) => id === step.id) ? picked : step ? rowsUnder(steps, step) : []
  const moveTo = (list: HTMLElement, y: number) => {
    const id = stepAbove(boxesIn(list), y)
    return step ? moveOfRows(steps, together, steps.find((one) => one.id === id) ?? null) : null
  }
  return {
    line: step ? line : null,
    onDragOver: (event: DragEvent<HTMLElement>) => {
      if (!step || !event.dataTransfer.types.includes(STEP_TYPE)) return
      event.preventDefault()
      event.stopPropagation()
      event.dataTransfer.dropEffect = 'move'
      const move = moveTo(event.currentTarget, event.clientY)
      setLine(move && { after: move.after?.id ?? null })
    },
    onDragLeave: (event: DragEvent<HTMLElement>) => {
      if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setLine(null)
    },
    onDrop: (event: DragEvent<HTMLElement>) => {
      setLine(null)
      if (!step || !event.dataTransfer.types.includes(STEP_TYPE)) return
      event.preventDefault()
      event.stopPropagation()
      const move = moveTo(event.currentTarget, event.clientY)
      setPane({ moving: null })
      if (!move) return
      if (together === picked) return void moveRowsBehind(workspace, picked, move.after)
      const stays = stayingAtRow()
      void moveStepBehind(workspace, step, move.after).then((isMoved) => {
        if (isMoved) sayPlaceOf(workspace, step, stays())
      })
    },
  }
}

/** The handle drags what is chosen, and a menu speaks of it. */
const isOnTools = (target: EventTarget): boolean =>
  target instanceof Element && target.closest('.st-step-tools, [role="menu"]') !== null

/** Arrows, Home and End go from step to step, from wherever in a step the keyboard is; not out of a text being typed. */
function focusNeighbour(event: KeyboardEvent<HTMLElement>, order: readonly StepId[]): void {
  if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
  if (!(event.target instanceof Element)) return
  if (event.target.closest('.cm-editor, input, textarea, [role="menu"]')) return
  const from = event.target.closest<HTMLElement>('[data-step]')?.dataset.step as StepId | undefined
  const next = nextPlace(event.key, from ? order.indexOf(from) : -1, order.length, 'vertical')
  if (next === null) return
  event.preventDefault()
  pickNone()
  const id = order[next]!
  const row = event.currentTarget.querySelector<HTMLElement>(`[data-step="${id}"]`)
  if (row) row.focus()
  else setPane({ current: id, wanted: { kind: 'step', id } })
}
