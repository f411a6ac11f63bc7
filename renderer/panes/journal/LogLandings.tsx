/** The journal as a landing place: while a source's words are dragged, it names what they will become. */
import { useState, type DragEvent, type ReactNode } from 'react'
import { entryKindAt, nameOfPlace, type LandingPlace } from '../../../shared/distil/landing.ts'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import type { EntryKind } from '../../../shared/lab/model.ts'
import { bringsFragment, takeFragment } from '../../editor/fragments.ts'
import { carryFragment } from '../../store/gestures.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { CarryIcon } from '../../ui/icons.tsx'
import { makesEntry } from './composerDrops.ts'
import { landingKinds } from './landingKinds.ts'

export interface LogLandingsProps {
  readonly children: ReactNode
}

/** Anywhere on the log is a place too: the usual kind. */
export function LogLandings({ children }: LogLandingsProps) {
  const workspace = useWorkspace()
  const dragging = useWorkspaceState((state) => state.dragging)
  const [over, setOver] = useState<EntryKind | 'usual' | null>(null)
  const isOurs = dragging !== null && makesEntry(workspace, dragging)
  // A drag out of another window brings a fragment that cannot be read before it is dropped.
  const mayLand = (event: DragEvent): boolean =>
    bringsFragment(event.dataTransfer) && (dragging === null || isOurs)
  const place = (kind?: EntryKind) => ({
    onDragOver: (event: DragEvent): void => {
      if (!mayLand(event)) return
      event.preventDefault()
      event.stopPropagation()
      event.dataTransfer.dropEffect = 'copy'
      setOver(kind ?? 'usual')
    },
    onDrop: (event: DragEvent): void => {
      const fragment = takeFragment(event.dataTransfer)
      setOver(null)
      if (!fragment || !mayLand(event)) return
      event.preventDefault()
      event.stopPropagation()
      workspace.set({ dragging: null })
      const landing: LandingPlace = kind ? { at: 'journal', kind } : { at: 'journal' }
      void carryFragment(workspace, fragment, landing, 'drag')
    },
  })
  const onDragLeave = (event: DragEvent<HTMLElement>): void => {
    if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(null)
  }
  return (
    <div className="st-log-landings" {...place()} onDragLeave={onDragLeave}>
      {children}
      {isOurs ? <Zones fragment={dragging} over={over} place={place} /> : null}
      {!dragging && over ? (
        <div className="st-landing-row st-log-zones">
          <div className="st-landing st-landing--journal st-landing--over">
            <CarryIcon /> Entry in the journal
          </div>
        </div>
      ) : null}
    </div>
  )
}

interface ZonesProps {
  readonly fragment: Fragment
  readonly over: EntryKind | 'usual' | null
  readonly place: (kind: EntryKind) => object
}

function Zones({ fragment, over, place }: ZonesProps) {
  const usual = entryKindAt(fragment)
  return (
    <div className="st-landing-row st-log-zones">
      {landingKinds(fragment).map((kind) => {
        const isOver = over === kind || (over === 'usual' && kind === usual)
        const classes = isOver
          ? 'st-landing st-landing--journal st-landing--over'
          : 'st-landing st-landing--journal'
        return (
          <div key={kind} className={classes} {...place(kind)}>
            <CarryIcon /> {nameOfPlace({ at: 'journal', kind }, fragment, [])}
          </div>
        )
      })}
    </div>
  )
}
