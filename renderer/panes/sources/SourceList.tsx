import type { ReactNode } from 'react'
import { useStore } from 'zustand'
import type { Source } from '../../../shared/lab/model.ts'
import { isFiltering } from '../../../shared/sources/filter.ts'
import { Button, EmptyState } from '../../ui/index.ts'
import { FilterIcon, ProjectIcon } from '../../ui/icons.tsx'
import { BulkBar } from './list/BulkBar.tsx'
import { Head } from './list/Head.tsx'
import { changeFilter, clearFilter, type ListStore } from './list/listState.ts'
import { MergePanel } from './list/MergePanel.tsx'
import type { Listed } from './list/useListed.ts'
import { VirtualRows } from './list/VirtualRows.tsx'
import './list/list.css'

export interface SourceListProps {
  readonly store: ListStore
  readonly listed: Listed
  /** The source that was read last. */
  readonly last: Source['id'] | null
  readonly onOpen: (id: Source['id']) => void
  /** Shown in place of rows where there is nothing to filter. */
  readonly nothing: ReactNode
}

/** The sources of the project or of the whole lab: to be found, sorted, put in order and opened. */
export function SourceList({ store, listed, last, onOpen, nothing }: SourceListProps) {
  const opened = useStore(store, (state) => state.opened)
  const isEmpty = listed.shown.length === 0 && opened.size === 0
  return (
    <div className="st-list">
      <Head store={store} listed={listed} />
      {isEmpty ? (
        (nothing ?? <NothingShown store={store} listed={listed} />)
      ) : (
        <VirtualRows store={store} listed={listed} last={last} onOpen={onOpen} />
      )}
      <BulkBar store={store} listed={listed} />
      <MergePanel store={store} listed={listed} />
    </div>
  )
}

/** Why no row is there, and the one thing to do about it. */
function NothingShown({ store, listed }: { readonly store: ListStore; readonly listed: Listed }) {
  const { filter, counts } = listed
  const inLab = counts.inLab
  if (filter.scope === 'project' && inLab > 0)
    return (
      <EmptyState
        icon={ProjectIcon}
        purpose={
          isFiltering(filter)
            ? 'This project has no such source, but the lab has.'
            : 'This project uses no source yet, but the lab has some.'
        }
        action={
          <Button onClick={() => changeFilter(store, { scope: 'lab' })}>
            {`Show ${inLab === 1 ? 'the one' : `the ${inLab}`} of the lab`}
          </Button>
        }
        hint="Take what you need into this project by the handle at its right."
      />
    )
  return (
    <EmptyState
      icon={FilterIcon}
      purpose="No source is like this."
      action={<Button onClick={() => clearFilter(store)}>Show all</Button>}
      hint={
        filter.flags.includes('set aside')
          ? undefined
          : 'What is set aside is shown by the filter “Set aside” only.'
      }
    />
  )
}
