/** The places where something can land, each saying what it will become there. */
import { useMemo, useState, type DragEvent, type ReactNode } from 'react'
import { ownLandingKinds, partKindAt, type LandingPlace } from '../../../shared/distil/landing.ts'
import type { ProcedureId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { AddIcon } from '../../ui/icons.tsx'
import { beginFirstPlace } from './acts.ts'
import { carryAndEnd, land, nameFor, otherKinds, usualKind, type Comer, type Target } from './landing.ts'
import { usePane } from './paneStore.ts'
import { takesDragOver } from './visits.ts'
import { wordOfOwnPart } from './words.ts'

/** What could land right now; null while nothing is on its way. */
export function useComer(): Comer | null {
  const fragment = useWorkspaceState(({ dragging, carrying }) => dragging ?? carrying)
  const visiting = usePane((state) => state.visiting)
  // The same object as long as the same thing is on its way, so that steps are not drawn again for nothing.
  return useMemo(() => {
    if (fragment) return { kind: 'fragment', fragment }
    if (visiting === 'fragment') return { kind: 'unread fragment' }
    return visiting === 'text' ? { kind: 'text' } : null
  }, [fragment, visiting])
}

interface LandingProps {
  readonly comer: Comer
  readonly place: LandingPlace
  readonly steps: readonly Step[]
  /** Other words than the place's full name, where the place beside it says the rest. */
  readonly words?: string
  readonly isSmall?: boolean
  readonly children?: ReactNode
}

/** One place: a target for a drop, and a button for what was picked without dragging. */
function Landing({ comer, place, steps, words, isSmall = false, children }: LandingProps) {
  const workspace = useWorkspace()
  const isPicked = useWorkspaceState((state) => state.dragging === null && state.carrying !== null)
  const { isOver, ...drop } = useDrop(place)
  const name = nameFor(comer, place, steps)
  const classes = ['st-landing', isSmall ? 'st-landing--small' : '', isOver ? 'st-landing--over' : '']
  return (
    <button
      type="button"
      className={classes.filter((one) => one !== '').join(' ')}
      aria-label={words === undefined ? undefined : `${words}: ${name}`}
      tabIndex={isPicked ? 0 : -1}
      onClick={() =>
        comer.kind === 'fragment' && void carryAndEnd(workspace, comer.fragment, place, 'button')
      }
      {...drop}
    >
      {children}
      {words ?? name}
    </button>
  )
}

/** What makes an element a target for drops. */
export function useDrop(target: Target) {
  const workspace = useWorkspace()
  const [isOver, setOver] = useState(false)
  return {
    isOver,
    onDragOver: (event: DragEvent) => {
      if (!takesDragOver(event)) return
      event.stopPropagation()
      if (!isOver) setOver(true)
    },
    onDragLeave: (event: DragEvent) => {
      if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false)
    },
    onDrop: (event: DragEvent) => {
      setOver(false)
      land(workspace, event, target)
    },
  }
}

/** The place where the first step of a procedure that is yet to be begun would land. */
export function FirstLanding({ comer }: { readonly comer: Comer }) {
  const workspace = useWorkspace()
  const begin = () => beginFirstPlace(workspace, null)
  const { isOver, ...drop } = useDrop(begin)
  const usual = usualKind(comer, (fragment) => partKindAt(fragment))
  return (
    <button
      type="button"
      className={isOver ? 'st-landing st-landing--over' : 'st-landing'}
      onClick={() =>
        comer.kind === 'fragment' && void carryAndEnd(workspace, comer.fragment, begin, 'button')
      }
      {...drop}
    >
      <AddIcon />
      {usual ? `Begin a procedure; first step: ${usual}` : 'Begin a procedure with it'}
    </button>
  )
}

interface GapProps {
  readonly comer: Comer
  readonly place: LandingPlace & { readonly at: 'new step' }
  readonly steps: readonly Step[]
}

/** The place between two steps. */
export function GapLanding({ comer, place, steps }: GapProps) {
  return (
    <li role="listitem" className="st-landing-gap">
      <Landing comer={comer} place={place} steps={steps}>
        <AddIcon />
      </Landing>
    </li>
  )
}

interface OwnLandingsProps extends Pick<LandingProps, 'comer' | 'steps'> {
  readonly procedure: ProcedureId
}

/** The places on the procedure itself. */
export function OwnLandings({ comer, procedure, steps }: OwnLandingsProps) {
  return (
    <div className="st-own-landings" role="group" aria-label="Of the procedure itself">
      {ownLandingKinds.map((kind) => (
        <Landing
          key={kind}
          comer={comer}
          place={{ at: 'own', procedure, kind }}
          steps={steps}
          words={wordOfOwnPart[kind]}
          isSmall
        />
      ))}
    </div>
  )
}

interface StepLandingsProps {
  readonly comer: Comer
  readonly step: Step
  readonly steps: readonly Step[]
}

/** The places on one step: the usual part large, the others small. */
export function StepLandings({ comer, step, steps }: StepLandingsProps) {
  const usual = usualKind(comer, (fragment) => partKindAt(fragment))
  const main: LandingPlace = { at: 'step', step: step.id, ...(usual ? { kind: usual } : {}) }
  return (
    <div className="st-step-landings">
      <Landing comer={comer} place={main} steps={steps} />
      <div className="st-step-landings-row">
        {otherKinds(usual).map((kind) => (
          <Landing
            key={kind}
            comer={comer}
            place={{ at: 'step', step: step.id, kind }}
            steps={steps}
            words={`as ${kind}`}
            isSmall
          />
        ))}
      </div>
    </div>
  )
}
