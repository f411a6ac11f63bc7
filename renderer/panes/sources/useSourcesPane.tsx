import { useEffect, useRef, useState, type RefObject } from 'react'
import type { Source } from '../../../shared/lab/model.ts'
import { isFiltering } from '../../../shared/sources/filter.ts'
import { unfoldPane, type PaneContent } from '../../frame/index.ts'
import { useOffered } from '../../store/offers.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, EmptyState, Menu, type MenuLine } from '../../ui/index.ts'
import { AddIcon, MoreIcon, SelectManyIcon, SourcesIcon, SourceTextIcon } from '../../ui/icons.tsx'
import { AddForm } from './AddForm.tsx'
import { useDrops, usePasting } from './arrivals.ts'
import { useSourceForm, type SourceForm } from './form.ts'
import { IntakeStatus } from './IntakeStatus.tsx'
import { beginAnew, listStoreOf, type ListStore } from './list/listState.ts'
import { useListed, type Listed } from './list/useListed.ts'
import { countWords } from './list/words.ts'
import { ReadingView } from './Reading.tsx'
import { SourceList } from './SourceList.tsx'
import { chooseFiles } from './taking.ts'
import { useOutside } from './taking/arriving.ts'
import { useGoal, type Goal } from './useGoal.ts'

/** The left pane: the sources of the project or of the lab, and one of them opened for reading. */
export function useSourcesPane(): PaneContent {
  const workspace = useWorkspace()
  const project = useWorkspaceState((state) => state.view?.project)
  const store = listStoreOf(workspace.requireLab())
  const listed = useListed(store)
  const form = useSourceForm()
  const goal = useGoal()
  const root = useRef<HTMLDivElement>(null)
  usePasting(root)
  useOutside()
  useEffect(() => beginAnew(store), [store, project])
  const count = listed?.inUse ?? 0
  const lines: MenuLine[] = [
    {
      id: 'files',
      word: 'Choose files…',
      icon: SourceTextIcon,
      onChoose: () => void chooseFiles(workspace),
    },
    {
      id: 'several',
      word: 'Select several sources',
      icon: SelectManyIcon,
      disabledBecause: listed?.shown.length ? undefined : 'No source is in the list.',
      onChoose: () => {
        workspace.set({ source: null })
        store.setState({ isChoosing: true })
      },
    },
  ]
  useOffered(() => ({ about: 'Sources', lines: [lineOfAdding(form.open), ...lines] }))
  return {
    title: 'Sources',
    ...(count > 0 ? { count, countWords: countWords(count) } : {}),
    actions: (
      <>
        <Button
          look="quiet"
          icon={AddIcon}
          label="Add a source"
          aria-expanded={form.isOpen}
          onClick={form.isOpen ? form.close : form.open}
        />
        <Menu
          label="More for sources"
          lines={lines}
          trigger={(attributes) => (
            <Button {...attributes} look="quiet" icon={MoreIcon} label="More for sources" />
          )}
        />
      </>
    ),
    body: <Body root={root} store={store} listed={listed} form={form} goal={goal} />,
    scrollsItself: true,
  }
}

function lineOfAdding(open: () => void): MenuLine {
  const onChoose = (): void => {
    unfoldPane('sources')
    open()
  }
  return { id: 'source', word: 'Add a source', icon: AddIcon, onChoose }
}

interface BodyProps {
  readonly root: RefObject<HTMLDivElement | null>
  readonly store: ListStore
  /** null before it is known. */
  readonly listed: Listed | null
  readonly form: SourceForm
  readonly goal: Goal | null
}

function Body({ root, store, listed, form, goal }: BodyProps) {
  const workspace = useWorkspace()
  const reading = useWorkspaceState((state) => state.source)
  const [last, setLast] = useState<Source['id'] | null>(null)
  // A goal leads only to what was opened for it; a source that is chosen from the list opens at its head.
  const [used, setUsed] = useState<Goal | null>(null)
  const { isOver, listeners } = useDrops()
  const open = (id: Source['id']) => {
    setUsed(goal)
    workspace.set({ source: id })
  }
  const back = () => {
    setLast(reading)
    setUsed(goal)
    store.setState({ current: reading })
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
      ) : listed === null ? null : listed.all.length > 0 ? (
        <SourceList
          store={store}
          listed={listed}
          last={last}
          onOpen={open}
          nothing={isNothingHere(listed) && !form.isOpen ? <Nothing onAdd={form.open} /> : null}
        />
      ) : form.isOpen ? null : (
        <Nothing onAdd={form.open} />
      )}
    </div>
  )
}

/** Whether the project has no source yet, so that the first one is to be added. */
const isNothingHere = ({ filter, inUse }: Listed): boolean =>
  filter.scope === 'project' && inUse === 0 && !isFiltering(filter)

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
