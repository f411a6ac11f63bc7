/** The procedure as a printed instruction: title, what it is for and made for, numbered steps, closing checks. */
import { useEffect, useRef, type DragEvent } from 'react'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { ProjectView } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { ParametersBlock } from '../../parameters/index.ts'
import { VersionLine } from '../../versions/index.ts'
import { useCoverageKey } from '../../coverage/index.ts'
import { useDraftKey } from '../../draft/index.ts'
import { useFetchesKey } from '../../fetches/index.ts'
import { setProcedurePlace } from '../../store/gestures.ts'
import { Button, Menu } from '../../ui/index.ts'
import { AddIcon } from '../../ui/icons.tsx'
import { StepLinksContext } from '../../ui/stepLinks.tsx'
import { PlaceForm } from '../journal/PlaceForm.tsx'
import { isTypingOutside } from '../typing.ts'
import { addStepAtEnd } from './acts.ts'
import { broughtBy, land } from './landing.ts'
import { OwnLandings, useComer } from './LandingPlaces.tsx'
import { useFollowedFocus } from './marks.ts'
import { endOf } from './moving.ts'
import { OwnPart } from './OwnPart.tsx'
import { setPane, usePane } from './paneStore.ts'
import { linesOfAddingTo } from './procedureLines.ts'
import { Rows } from './Rows.tsx'
import { standsBehind, type ShownPart, type ShownProcedure } from './shown.ts'
import { useStepLinks } from './stepLinks.ts'
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
  const ownPart = (one: ShownPart) => <OwnPart key={one.part.id} shown={one} title={title} marks={marks} />
  const stepLinks = useStepLinks(shown)
  const comer = useComer()
  useWantedFocus(root)
  useEndOfVisit()
  useFetchesKey(workspace, shown.id)
  useCoverageKey(workspace, shown.id)
  useDraftKey(workspace)
  return (
    <StepLinksContext.Provider value={stepLinks}>
      <article
        ref={root}
        className="st-procedure"
        aria-label={title}
        onDragOver={(event) => void takesDragOver(event)}
        onDrop={(event) => onDropOnWhole(event, workspace, shown)}
      >
        {shown.own.filter(({ part }) => !standsBehind(part.kind)).map(ownPart)}
        {comer ? <OwnLandings comer={comer} procedure={shown.id} steps={[]} /> : null}
        <VersionLine view={view} procedure={shown.id} />
        <ParametersBlock procedure={shown.id} />
        <Beginning shown={shown} />
        <Rows shown={shown} title={title} marks={marks} />
        <div className="st-procedure-add">
          <Button icon={AddIcon} data-add-step onClick={() => void addStepAtEnd(workspace, shown.id)}>
            Add a step
          </Button>
          <Menu
            label="Add to the procedure"
            lines={() => linesOfAddingTo(workspace, shown)}
            trigger={(attributes) => (
              <Button look="quiet" {...attributes}>
                Add…
              </Button>
            )}
          />
        </div>
        {shown.own.filter(({ part }) => standsBehind(part.kind)).map(ownPart)}
        <Said />
      </article>
    </StepLinksContext.Provider>
  )
}

/** The form that says where the procedure begins; the place itself shows at the first step. */
function Beginning({ shown }: Pick<ProcedureProps, 'shown'>) {
  const workspace = useWorkspace()
  const isPlacing = usePane((state) => state.placing === 'start')
  const close = () => setPane({ placing: null, wanted: { kind: 'new step' } })
  if (!isPlacing) return null
  return (
    <PlaceForm
      label="Where it happens"
      place={shown.place}
      hint="Where the first step happens, and all others until one says another place."
      onKeep={(place) => void setProcedurePlace(workspace, shown.id, place).then(close)}
      onCancel={close}
    />
  )
}

/** Beside all steps it lands at the end. */
function onDropOnWhole(event: DragEvent, workspace: Workspace, shown: ShownProcedure): void {
  if (!broughtBy(event.dataTransfer)) return
  land(workspace, event, endOf(shown.id, shown.steps.at(-1)?.step ?? null))
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
