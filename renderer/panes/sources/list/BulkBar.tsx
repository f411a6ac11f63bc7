/** What can be done with all sources that are chosen. Each act is one Change with one undo. */
import type { KeyboardEvent } from 'react'
import { useStore } from 'zustand'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import { Button } from '../../../ui/index.ts'
import { setAside, setPinned, setUsedHere } from './acts.ts'
import { BulkTags } from './BulkTags.tsx'
import { FolderChoice } from './FolderChoice.tsx'
import { chooseAll, endChoosing, goToRow, type ListStore } from './listState.ts'
import { idsOf, type Listed } from './useListed.ts'

export interface BulkBarProps {
  readonly store: ListStore
  readonly listed: Listed
}

export function BulkBar({ store, listed }: BulkBarProps) {
  const workspace = useWorkspace()
  const project = useWorkspaceState((state) => state.view?.project)
  const isChoosing = useStore(store, (state) => state.isChoosing)
  const bulk = useStore(store, (state) => state.bulk)
  if (!isChoosing) return null
  const { chosen, shown } = listed
  const ids = idsOf(chosen)
  const isNone = chosen.length === 0
  const areAside = !isNone && chosen.every(({ source }) => source.setAside)
  const arePinned = !isNone && chosen.every(({ source }) => source.pinned)
  const here = chosen.filter(({ source }) => source.projects.some((id) => id === project)).length
  const open = (part: 'tags' | 'folders') => () => store.setState({ bulk: bulk === part ? null : part })
  const close = (): void => store.setState({ bulk: null })
  const end = (): void => {
    const { current } = store.getState()
    endChoosing(store)
    if (current) goToRow(store, current)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.defaultPrevented) return
    event.preventDefault()
    event.stopPropagation()
    end()
  }
  return (
    <section className="st-bulk" aria-label="With all that are selected" onKeyDown={onKeyDown}>
      {bulk === 'tags' && !isNone ? <BulkTags rows={chosen} listed={listed} onClose={close} /> : null}
      {bulk === 'folders' && !isNone ? (
        <div className="st-bulk-part st-scroll">
          <FolderChoice rows={chosen} listed={listed} onClose={close} />
        </div>
      ) : null}
      <div className="st-bulk-head">
        <p role="status" className="st-bulk-count">
          {isNone ? 'Select sources by a press or with the space bar.' : `${chosen.length} selected`}
        </p>
        <Button look="quiet" keys="Ctrl+A" onClick={() => chooseAll(store, idsOf(shown))}>
          All
        </Button>
        <Button look="quiet" keys="Escape" onClick={end}>
          Done
        </Button>
      </div>
      {isNone ? null : (
        <div className="st-bulk-acts">
          <Button aria-expanded={bulk === 'tags'} onClick={open('tags')}>
            Tag…
          </Button>
          <Button aria-expanded={bulk === 'folders'} onClick={open('folders')}>
            Folder…
          </Button>
          <Button onClick={() => void setPinned(workspace, ids, !arePinned)}>
            {arePinned ? 'Unpin' : 'Pin'}
          </Button>
          <Button onClick={() => void setAside(workspace, ids, !areAside)}>
            {areAside ? 'Bring back' : 'Set aside'}
          </Button>
          {here < chosen.length ? (
            <Button onClick={() => void setUsedHere(workspace, ids, true)}>Into this project</Button>
          ) : null}
          {here > 0 ? (
            <Button onClick={() => void setUsedHere(workspace, ids, false)}>Out of this project</Button>
          ) : null}
          {chosen.length >= 2 ? (
            <Button onClick={() => store.setState({ merging: ids })}>Merge…</Button>
          ) : null}
        </div>
      )}
    </section>
  )
}
