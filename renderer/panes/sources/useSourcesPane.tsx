import { useMemo, useRef, useState, type RefObject } from 'react'
import type { Source } from '../../../shared/lab/model.ts'
import type { PaneContent } from '../../frame/index.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, EmptyState } from '../../ui/index.ts'
import { AddIcon, SourcesIcon } from '../../ui/icons.tsx'
import { AddForm } from './AddForm.tsx'
import { useDrops, usePasting } from './arrivals.ts'
import { ElsewhereMenu } from './ElsewhereMenu.tsx'
import { useSourceForm, type SourceForm } from './form.ts'
import { IntakeStatus } from './IntakeStatus.tsx'
import { ReadingView } from './Reading.tsx'
import { sourceRows, type SourceRow } from './rows.ts'
import { SourceList } from './SourceList.tsx'
import { useOutside } from './taking/arriving.ts'
import { useGoal, type Goal } from './useGoal.ts'

/** The left pane: the project's sources, and one of them opened for reading. */
export function useSourcesPane(): PaneContent {
  const rows = useRows()
  const form = useSourceForm()
  const goal = useGoal()
  const [filter, setFilter] = useState('')
  const root = useRef<HTMLDivElement>(null)
  usePasting(root)
  useOutside()
  return {
    title: 'Sources',
    ...(rows.length > 0
      ? { count: rows.length, countWords: `${rows.length} ${rows.length === 1 ? 'source' : 'sources'}` }
      : {}),
    actions: (
      <>
        <Button
          look="quiet"
          icon={AddIcon}
          label="Add a source"
          aria-expanded={form.isOpen}
          onClick={form.isOpen ? form.close : form.open}
        />
        <ElsewhereMenu />
      </>
    ),
    body: <Body root={root} rows={rows} form={form} goal={goal} filter={filter} onFilter={setFilter} />,
    scrollsItself: true,
  }
}

function useRows(): readonly SourceRow[] {
  const sources = useWorkspaceState((state) => state.view?.sources)
  const captures = useWorkspaceState((state) => state.view?.captures)
  const links = useWorkspaceState((state) => state.view?.links)
  return useMemo(
    () => (sources && captures && links ? sourceRows({ sources, captures, links }) : []),
    [sources, captures, links],
  )
}

interface BodyProps {
  readonly root: RefObject<HTMLDivElement | null>
  readonly rows: readonly SourceRow[]
  readonly form: SourceForm
  readonly goal: Goal | null
  readonly filter: string
  readonly onFilter: (words: string) => void
}

function Body({ root, rows, form, goal, filter, onFilter }: BodyProps) {
  const workspace = useWorkspace()
  const reading = useWorkspaceState((state) => state.source)
  const [last, setLast] = useState<Source['id'] | null>(null)
  // A goal leads only to what was opened for it; a source that is chosen from the list opens at its head.
  const [used, setUsed] = useState<Goal | null>(null)
  const { isOver, listeners } = useDrops()
  const open = (source: Source) => {
    setUsed(goal)
    workspace.set({ source: source.id })
  }
  const back = () => {
    setLast(reading)
    setUsed(goal)
    workspace.set({ source: null })
  }
  return (
    <div ref={root} className="st-sources" tabIndex={-1} {...listeners}>
      <div className="st-sources-top">
        {isOver ? <p className="st-landing st-landing--sources">Add to the sources</p> : null}
        <IntakeStatus form={form} />
        {form.isOpen ? <AddForm form={form} /> : null}
      </div>
      {reading ? (
        <ReadingView
          key={reading}
          id={reading}
          goal={goal !== used && goal?.source === reading ? goal : null}
          onBack={back}
          onPasteText={form.openFor}
        />
      ) : rows.length > 0 ? (
        <SourceList rows={rows} filter={filter} onFilter={onFilter} last={last} onOpen={open} />
      ) : form.isOpen ? null : (
        <Nothing onAdd={form.open} />
      )}
    </div>
  )
}

function Nothing({ onAdd }: { readonly onAdd: () => void }) {
  return (
    <EmptyState
      icon={SourcesIcon}
      purpose="What you read before and while you work: pages, manuals, files."
      action={
        <Button icon={AddIcon} onClick={onAdd}>
          Add a source
        </Button>
      }
      hint="Or drop a file, a link or a piece of text here, or paste it with Ctrl+V."
    />
  )
}
