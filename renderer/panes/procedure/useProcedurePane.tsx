/** The right pane. */
import { useEffect, useMemo } from 'react'
import type { PaneContent } from '../../frame/content.ts'
import { useOffered, type Offer } from '../../store/offers.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import type { ProjectView } from '../../store/view.ts'
import { unfoldPane } from '../../frame/index.ts'
import { Button, Menu, type MenuLine } from '../../ui/index.ts'
import { AddIcon, ExportIcon, ProcedureIcon, type Icon } from '../../ui/icons.tsx'
import { countSteps } from '../../../shared/procedure/rows/numbers.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import { WithParameters } from '../../parameters/index.ts'
import { ReviewButton } from '../../review/index.ts'
import { StrikeOut } from '../StrikeOut.tsx'
import { BeginForm, NoProcedure } from './BeginProcedure.tsx'
import { ExportPanel, exportOpener } from './ExportPanel.tsx'
import { ReadyCautions } from './ReadyCautions.tsx'
import { restingPane, setPane, usePane } from './paneStore.ts'
import { MenuButton } from './MenuButton.tsx'
import { useKeptMarks } from './keptMarks.ts'
import { linesOfProcedure } from './procedureLines.ts'
import { Procedure } from './Procedure.tsx'
import { linesOfStep } from './stepLines.ts'
import { titledProcedures, toShownProcedure, type ShownProcedure } from './shown.ts'
import { untitled } from './words.ts'

/** What the right pane shows of the open project. */
export function useProcedurePane(): PaneContent {
  const view = useWorkspaceState((state) => state.view)
  const procedure = useWorkspaceState((state) => state.procedure)
  const shown = useMemo(
    () => (view && procedure ? toShownProcedure(view, procedure) : null),
    [view, procedure],
  )
  useFreshPane()
  useKeptMarks()
  useStandingProcedure(view)
  useOfferedLines(shown)
  const count = shown ? countSteps(shown.steps.map(({ step }) => step)) : 0
  return {
    title: 'Procedure',
    ...(shown ? { count, countWords: count === 1 ? '1 step' : `${count} steps` } : {}),
    actions: view ? <Actions view={view} shown={shown} /> : null,
    body: view ? <Body view={view} shown={shown} /> : null,
  }
}

/** Finds by their words what its menus hold, of the procedure and of the row that is the current one. */
function useOfferedLines(shown: ShownProcedure | null): void {
  const workspace = useWorkspace()
  const about = { about: 'Procedure' } as const
  useOffered(() => {
    const begin = lineOf('new procedure', 'New procedure', AddIcon, () => setPane({ newTitle: '' }))
    if (!shown) return { ...about, lines: [begin] }
    const out = lineOf('export', 'Export…', ExportIcon, () => setPane({ isExporting: true }))
    return { ...about, lines: [begin, ...linesOfProcedure(workspace, shown), out].map(unfolding) }
  })
  useOffered((): Offer | null => {
    const { current } = usePane.getState()
    const row = shown?.steps.find(({ step }) => step.id === current)
    if (!row) return null
    const name = row.number === '' ? 'This section' : `Step ${row.number}`
    return { about: name, lines: linesOfStep(workspace, row).map(unfolding) }
  })
}

const lineOf = (id: string, word: string, icon: Icon, onChoose: () => void): MenuLine => ({
  ...{ id, word, icon, onChoose },
})

/** What it does is to be seen. */
function unfolding(line: MenuLine): MenuLine {
  if (line.kind === 'heading' || line.kind === 'rule') return line
  const onChoose = (): void => {
    unfoldPane('procedure')
    line.onChoose()
  }
  return { ...line, onChoose }
}

/** A pane for another project begins at rest; a title that was being typed is kept. */
function useFreshPane(): void {
  useEffect(() => {
    const { newTitle, marksShow } = usePane.getState()
    setPane({ ...restingPane, newTitle, marksShow })
  }, [])
}

/** Shows another procedure where the one that was shown is gone, for instance by undo. */
function useStandingProcedure(view: ProjectView | null): void {
  const workspace = useWorkspace()
  const procedure = useWorkspaceState((state) => state.procedure)
  useEffect(() => {
    if (!view || (procedure && view.procedures.has(procedure))) return
    const next = titledProcedures(view).at(-1)?.id ?? null
    if (next !== procedure) workspace.set({ procedure: next })
  }, [workspace, view, procedure])
}

interface PartsOfPane {
  readonly view: ProjectView
  readonly shown: ShownProcedure | null
}

function Body({ view, shown }: PartsOfPane) {
  const isBeginning = usePane((state) => state.newTitle !== null)
  const isExporting = usePane((state) => state.isExporting)
  const striking = usePane((state) => state.striking)
  if (!shown) return <NoProcedure />
  return (
    <>
      {isBeginning ? <BeginForm /> : null}
      {isExporting ? <ExportPanel key={`export ${shown.id}`} procedure={shown.id} /> : null}
      <WithParameters key={shown.id} view={view} procedure={shown.id}>
        <Procedure view={view} shown={shown} />
      </WithParameters>
      <ReadyCautions />
      {striking ? <StrikeOut {...striking} onClose={() => setPane({ striking: null })} /> : null}
    </>
  )
}

function Actions({ view, shown }: PartsOfPane) {
  const workspace = useWorkspace()
  const isExporting = usePane((state) => state.isExporting)
  if (!shown) return null
  const opener = { [exportOpener]: true }
  return (
    <>
      <Switcher view={view} shown={shown} />
      <ReviewButton />
      <Button
        look="quiet"
        icon={ExportIcon}
        aria-expanded={isExporting}
        {...opener}
        onClick={() => setPane({ isExporting: !isExporting })}
      >
        Export…
      </Button>
      <MenuButton label="More for the procedure" lines={() => linesOfProcedure(workspace, shown)} />
    </>
  )
}

/** Chooses among several procedures; while there is one, it begins another. */
function Switcher({ view, shown }: { readonly view: ProjectView; readonly shown: ShownProcedure }) {
  const workspace = useWorkspace()
  const procedures = titledProcedures(view)
  const begin = { word: 'New procedure', icon: AddIcon, onChoose: () => setPane({ newTitle: '' }) }
  if (procedures.length === 1)
    return <Button look="quiet" icon={begin.icon} label={begin.word} onClick={begin.onChoose} />
  const lines = [
    ...procedures.map(({ id, title }) => ({
      id,
      word: plainWords(title, 70) || untitled,
      icon: ProcedureIcon,
      isChosen: id === shown.id,
      onChoose: () => workspace.set({ procedure: id }),
    })),
    { kind: 'rule', id: 'rule' } as const,
    { id: 'new', ...begin },
  ]
  return (
    <Menu
      label="Procedures of this project"
      lines={lines}
      trigger={(attributes) => (
        <Button {...attributes} look="quiet" icon={ProcedureIcon} label="Procedures of this project" />
      )}
    />
  )
}
