/** The whole screen of one window. */
import { useEffect, useRef, useState } from 'react'
import type { LinkNode } from '../shared/lab/model.ts'
import {
  defaultLayout,
  formerAfter,
  FULL_WIDTH_KEYS,
  FullWidthContext,
  isPaneLayout,
  toggleFold,
  toggleFullWidth,
  type Band,
  type Former,
  type FullWidth,
  Screen,
  StatusLine,
  ThreePanes,
  TopBar,
  type PaneLayout,
} from './frame/index.ts'
import { FaceButtons } from './labs/FaceButtons.tsx'
import { FirstStart } from './labs/FirstStart.tsx'
import { LabMenu } from './labs/LabMenu.tsx'
import { OpenProjects } from './labs/OpenProjects.tsx'
import { ProjectMenu } from './labs/ProjectMenu.tsx'
import { FindBox, FindButton } from './find/index.ts'
import { OpenedPanel } from './Panels.tsx'
import { LeavingDialog } from './leaving/index.ts'
import { useMapKey } from './map/index.ts'
import { useJournalPane } from './panes/journal/index.ts'
import { KeptPicture } from './panes/journal/pictures/index.ts'
import { CarryList } from './panes/procedure/CarryList.tsx'
import { useProcedurePane } from './panes/procedure/index.ts'
import { useSourcesPane } from './panes/sources/index.ts'
import { Ribbons, RibbonsBeside, RibbonsButton } from './ribbons/index.ts'
import { drawnFences } from './sketch/index.ts'
import { PrintLayer } from './printing/index.ts'
import { redo, undo } from './store/gestures.ts'
import { useOffered } from './store/offers.ts'
import { useWorkspace, useWorkspaceState } from './store/useWorkspace.ts'
import type { Workspace } from './store/workspace.ts'
import { SetAgain, TracePanel } from './trace/index.ts'
import { Button, ErrorSentence, Notices, type MenuLine } from './ui/index.ts'
import { PictureContext } from './ui/blobs.tsx'
import { FenceContext } from './ui/fences.ts'
import { RedoIcon, UndoIcon } from './ui/icons.tsx'
import { isAltLetter } from './ui/keys.ts'

export function App() {
  const workspace = useWorkspace()
  const notices = useWorkspaceState((state) => state.notices)
  const hasLab = useWorkspaceState((state) => state.lab !== null && state.phase.kind === 'ready')
  useProgramKeys()
  useDropGuard()
  return (
    <FenceContext value={drawnFences}>
      <PictureContext value={KeptPicture}>
        <Screen top={<Top />} foot={<Foot />}>
          <Middle />
        </Screen>
      </PictureContext>
      {hasLab ? <FindBox /> : null}
      <PrintLayer />
      <LeavingDialog />
      <Notices notices={notices} onDismiss={(id) => workspace.dismiss(id)} />
    </FenceContext>
  )
}

function Middle() {
  const phase = useWorkspaceState((state) => state.phase)
  const lab = useWorkspaceState((state) => state.lab)
  const project = useWorkspaceState((state) => state.view?.project)
  if (phase.kind === 'failed')
    return (
      <ErrorSentence
        happened="The lab did not open."
        safe={phase.sentence}
        next="Labs that were saved to files can be brought in elsewhere."
      />
    )
  if (phase.kind === 'opening' || !lab) return <p className="st-opening">Opening the lab …</p>
  // Each lab and project has panes of its own, so that no text of one is ever shown in the other.
  return project ? <Panes key={`${lab.id} ${project}`} /> : <FirstStart key={lab.id} />
}

function Panes() {
  const [layout, setLayout] = useKeptLayout()
  const [changeLayout, fullWidth] = useWideReading(layout, setLayout)
  useUnfolding(layout, changeLayout)
  useMapKey()
  const carrying = useWorkspaceState((state) => state.carrying)
  const traced = useWorkspaceState((state) => state.traced)
  return (
    <FullWidthContext value={fullWidth}>
      <ThreePanes
        layout={layout}
        onLayout={changeLayout}
        sources={useSourcesPane()}
        journal={useJournalPane()}
        procedure={useProcedurePane()}
        ribbons={(geometry) => <Ribbons geometry={geometry} />}
      />
      <RibbonsBeside />
      {traced ? <TracePanel /> : null}
      <SetAgain />
      <OpenedPanel />
      {carrying ? <CarryList /> : null}
    </FullWidthContext>
  )
}

/** The pane that shows a thing. */
const bandOf: Readonly<Record<LinkNode['kind'], Band>> = {
  source: 'sources',
  capture: 'sources',
  entry: 'journal',
  part: 'procedure',
}

/** Going to a thing unfolds its pane: it is to be seen. */
function useUnfolding(layout: PaneLayout, setLayout: (layout: PaneLayout) => void): void {
  const focus = useWorkspaceState((state) => state.focus)
  const latest = useRef({ layout, setLayout })
  useEffect(() => {
    latest.current = { layout, setLayout }
  })
  useEffect(() => {
    const band = focus ? bandOf[focus.node.kind] : null
    const { layout: now, setLayout: change } = latest.current
    if (band && now.folded.includes(band)) change(toggleFold(now, band))
  }, [focus])
}

/** The widths of the panes, kept for each lab. */
function useKeptLayout(): [PaneLayout, (layout: PaneLayout) => void] {
  const lab = useWorkspaceState((state) => state.lab)
  const [layout, setLayout] = useState(defaultLayout)
  useEffect(() => {
    let isOver = false
    void lab?.findSetting('pane layout').then((kept) => {
      if (!isOver && isPaneLayout(kept)) setLayout(kept)
    })
    return () => {
      isOver = true
    }
  }, [lab])
  const change = (next: PaneLayout): void => {
    setLayout(next)
    void lab?.keepSetting('pane layout', next)
  }
  return [layout, change]
}

/**
 * Reading at full width. The layout from before is kept for each lab too, so that the way back survives a restart.
 * @returns how to change the layout, and the full width as the panes see it
 */
function useWideReading(
  layout: PaneLayout,
  setLayout: (layout: PaneLayout) => void,
): [(layout: PaneLayout) => void, FullWidth] {
  const lab = useWorkspaceState((state) => state.lab)
  const isReading = useWorkspaceState((state) => state.source !== null)
  const [former, setFormer] = useState<Former>(null)
  useEffect(() => {
    let isOver = false
    void lab?.findSetting('layout before full width').then((kept) => {
      if (!isOver && isPaneLayout(kept)) setFormer(kept)
    })
    return () => {
      isOver = true
    }
  }, [lab])
  const keep = (next: Former): void => {
    if (next === former) return
    setFormer(next)
    void lab?.keepSetting('layout before full width', next)
  }
  const change = (next: PaneLayout): void => {
    setLayout(next)
    keep(formerAfter(next, former, 'sources'))
  }
  const toggle = (): void => {
    const next = toggleFullWidth(layout, former, 'sources')
    setLayout(next.layout)
    keep(next.former)
  }
  const isFull = former !== null
  const isOffered = isReading || isFull
  useFullWidthKey(isOffered ? toggle : null)
  useOffered(() => ({
    about: 'Sources',
    lines: isOffered ? [lineOfFullWidth(isFull, toggle)] : [],
  }))
  return [change, { isFull, toggle }]
}

const lineOfFullWidth = (isFull: boolean, onChoose: () => void): MenuLine => ({
  id: 'full width',
  word: isFull ? 'Read beside the other panes' : 'Read at full width',
  hint: FULL_WIDTH_KEYS,
  onChoose,
})

/** @param toggle null where there is nothing to give the width to */
function useFullWidthKey(toggle: (() => void) | null): void {
  const latest = useRef(toggle)
  useEffect(() => {
    latest.current = toggle
  })
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'W') || !latest.current || document.querySelector('dialog:modal')) return
      event.preventDefault()
      latest.current()
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [])
}

function Top() {
  const workspace = useWorkspace()
  const undoable = useWorkspaceState((state) => state.undoable)
  const redoable = useWorkspaceState((state) => state.redoable)
  const hasPanes = useWorkspaceState((state) => state.view !== null)
  useOffered(() => ({ about: 'The program', lines: linesOfUndo(workspace) }))
  return (
    <TopBar
      lab={<LabMenu />}
      project={<ProjectMenu />}
      middle={
        <>
          <OpenProjects />
          <FindButton />
        </>
      }
      undoRedo={
        <>
          <Button
            look="quiet"
            icon={UndoIcon}
            label={undoable ? `Undo: ${undoable.act}` : 'Undo'}
            keys="Ctrl+Z"
            disabled={!undoable}
            onClick={() => void undo(workspace)}
          />
          <Button
            look="quiet"
            icon={RedoIcon}
            label="Redo"
            keys="Ctrl+Shift+Z"
            disabled={!redoable}
            onClick={() => void redo(workspace)}
          />
        </>
      }
      settings={
        <>
          {hasPanes ? <RibbonsButton /> : null}
          <FaceButtons />
        </>
      }
    />
  )
}

function linesOfUndo(workspace: Workspace): MenuLine[] {
  const { undoable, redoable } = workspace.state
  const undoLine: MenuLine[] = undoable
    ? [
        {
          id: 'undo',
          word: `Undo: ${undoable.act}`,
          icon: UndoIcon,
          hint: 'Ctrl+Z',
          onChoose: () => void undo(workspace),
        },
      ]
    : []
  if (!redoable) return undoLine
  return [
    ...undoLine,
    {
      id: 'redo',
      word: `Redo: ${redoable.act}`,
      icon: RedoIcon,
      hint: 'Ctrl+Shift+Z',
      onChoose: () => void redo(workspace),
    },
  ]
}

function Foot() {
  const unsaved = useWorkspaceState((state) => state.unsaved)
  const sentence = [...unsaved.values()][0]
  return (
    <StatusLine>
      {sentence ? (
        <span role="alert">{sentence}</span>
      ) : (
        'Everything typed is kept on this machine. Nothing leaves it.'
      )}
    </StatusLine>
  )
}

/** Undo and redo from anywhere but where a text is being typed, which has its own keys for them. */
function useProgramKeys(): void {
  const workspace = useWorkspace()
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (
        event.defaultPrevented ||
        !(event.ctrlKey || event.metaKey) ||
        event.altKey ||
        isTyping(event.target)
      )
        return
      const key = event.key.toLowerCase()
      const act = key === 'z' && !event.shiftKey ? undo : key === 'y' || key === 'z' ? redo : null
      if (!act || !workspace.state.lab) return
      event.preventDefault()
      void act(workspace)
    }
    window.addEventListener('keydown', onKey)
    return () => window.removeEventListener('keydown', onKey)
  }, [workspace])
}

/** What is dropped where nothing takes it is refused; a plain browser would leave the page to show it. */
function useDropGuard(): void {
  useEffect(() => {
    const refuse = (event: DragEvent): void => {
      if (event.defaultPrevented) return
      event.preventDefault()
      if (event.dataTransfer) event.dataTransfer.dropEffect = 'none'
    }
    window.addEventListener('dragover', refuse)
    window.addEventListener('drop', refuse)
    return () => {
      window.removeEventListener('dragover', refuse)
      window.removeEventListener('drop', refuse)
    }
  }, [])
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false
  const isReadOnly = target.closest('.cm-content')?.getAttribute('aria-readonly') === 'true'
  return (
    !isReadOnly &&
    (target.isContentEditable || target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)
  )
}
