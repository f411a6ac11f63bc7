/** The journal's pane: entries in the order in which they were written, and the composer. */
import { useDeferredValue, useEffect, useMemo, useState } from 'react'
import { useStore } from 'zustand'
import type { Mark } from '../../../shared/lab/model.ts'
import type { PaneContent } from '../../frame/content.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { entriesInOrder } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button } from '../../ui/index.ts'
import { SearchIcon } from '../../ui/icons.tsx'
import { Composer } from './Composer.tsx'
import { ComposerModel } from './composerModel.ts'
import { JournalBody } from './JournalBody.tsx'
import { outcomeIn } from './entryCommands.ts'
import { clearFilter, createJournalStore, setIn, type JournalStore } from './journalState.ts'
import { JournalMenu } from './JournalMenu.tsx'
import { PlaceKeeper, toJournalPlace, withoutWords } from './keptPlace.ts'
import { filterEntries, isFiltering, rowsOf } from './rows.ts'
import { useComposerKeys } from './useComposerKeys.ts'
import { useOfferedActs } from './useOfferedActs.ts'

/** What the middle pane shows for the open project. Needs an open project; one hook lives for one project. */
export function useJournalPane(): PaneContent {
  const workspace = useWorkspace()
  const [model] = useState(
    () => new ComposerModel(workspace, workspace.requireLab(), workspace.requireView().project),
  )
  const [store] = useState(() => createKeptStore(workspace, model))
  useEffect(() => model.open(), [model])
  useEffect(() => store.getState().keeper.watch(store), [store])
  // What was looked for may be what was struck out.
  useEffect(() => workspace.textsStruck.on(() => clearFilter(store)), [workspace, store])
  useComposerKeys(model)
  useOfferedActs(model, store)
  useLeftAmendments(workspace, store)
  const { rows, shown, all } = useRows(store)
  const counted = `${all} ${all === 1 ? 'entry' : 'entries'}`
  return {
    title: 'Journal',
    count: all,
    countWords: shown === all ? counted : `${shown} of ${counted}`,
    actions: (
      <>
        <FilterButton store={store} />
        <JournalMenu />
      </>
    ),
    foot: <Composer model={model} />,
    body: <JournalBody rows={rows} shown={shown} all={all} store={store} />,
    scrollsItself: true,
  }
}

/** The pane as it was left in this project. */
function createKeptStore(workspace: Workspace, model: ComposerModel): JournalStore {
  const { project } = workspace.requireView()
  const place = toJournalPlace(workspace.places.at(project).journal)
  const keeper = new PlaceKeeper(place.top, (journal) =>
    workspace.places.note(project, { journal }, withoutWords(journal)),
  )
  return createJournalStore(model, keeper, place)
}

function useRows(store: JournalStore) {
  const entries = useWorkspaceState((state) => state.view?.entries)
  const texts = useWorkspaceState((state) => state.view?.texts)
  const tags = useWorkspaceState((state) => state.view?.entryTags)
  const marks = useWorkspaceState((state) => state.view?.marks)
  const machines = useWorkspaceState((state) => state.machines)
  const filter = useDeferredValue(useStore(store, (state) => state.filter))
  const ordered = useMemo(
    () => (entries && marks ? entriesInOrder({ entries, marks }) : []),
    [entries, marks],
  )
  const isByWords = filter.words.trim() !== ''
  // Texts and tags matter only while they are looked for; else an amendment would make all rows anew.
  const searched = isByWords ? texts : undefined
  const sorted = filter.tags.size > 0 ? tags : undefined
  const isByOutcome = filter.outcome !== null
  const judged = isByOutcome ? texts : undefined
  const pieces = useWorkspaceState((state) => (isByOutcome ? state.view?.pieces : undefined))
  const filtered = useMemo(() => {
    const own = marks ?? new Map<string, readonly Mark[]>()
    const facts = { texts: judged ?? new Map(), pieces: pieces ?? new Map(), marks: own }
    return filterEntries(ordered, searched ?? new Map(), filter, sorted ?? new Map(), {
      ...{ marks: own, machines },
      outcomeOf: (entry) => outcomeIn(facts, entry),
    })
  }, [ordered, searched, filter, sorted, marks, machines, judged, pieces])
  const rows = useMemo(() => rowsOf(filtered, marks), [filtered, marks])
  return { rows, shown: filtered.length, all: ordered.length }
}

/** Amendments that were being typed when the window ended are open again. */
function useLeftAmendments(workspace: Workspace, store: JournalStore): void {
  useEffect(() => {
    let isOver = false
    const { entries } = workspace.requireView()
    void workspace
      .requireLab()
      .queries.draftsOf(workspace.window)
      .then((drafts) => {
        for (const draft of isOver ? [] : drafts)
          if (draft.owner === 'text' && draft.node.kind === 'entry' && entries.has(draft.node.id))
            setIn(store, 'amending', draft.node.id, true)
      })
    return () => {
      isOver = true
    }
  }, [workspace, store])
}

function FilterButton({ store }: { readonly store: JournalStore }) {
  const isShown = useStore(store, (state) => state.isFilterShown)
  const isOn = useStore(store, (state) => isFiltering(state.filter))
  return (
    <Button
      look="quiet"
      icon={SearchIcon}
      label={isOn ? 'Filter the journal, some entries are hidden' : 'Filter the journal'}
      pressed={isShown || isOn}
      data-journal-filter
      onClick={() => (isShown ? clearFilter(store) : store.setState({ isFilterShown: true }))}
    />
  )
}
