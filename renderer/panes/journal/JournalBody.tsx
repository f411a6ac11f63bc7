import type { ClipboardEvent } from 'react'
import { useStore } from 'zustand'
import { writeFragment } from '../../editor/fragments.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, EmptyState, Kbd } from '../../ui/index.ts'
import { JournalIcon } from '../../ui/icons.tsx'
import { StrikeOut } from '../StrikeOut.tsx'
import { COMPOSER_KEYS } from './composerKeys.ts'
import { findSelection } from './entryFragment.ts'
import { FilterBar } from './FilterBar.tsx'
import { isTyping } from './isTyping.ts'
import { clearFilter, focusEntry, type JournalStore } from './journalState.ts'
import { Log } from './Log.tsx'
import { LogLandings } from './LogLandings.tsx'
import { ProblemStrip } from './ProblemStrip.tsx'
import type { LogRow } from './rows.ts'

export interface JournalBodyProps {
  readonly rows: readonly LogRow[]
  readonly shown: number
  readonly all: number
  readonly store: JournalStore
}

export function JournalBody({ rows, shown, all, store }: JournalBodyProps) {
  const workspace = useWorkspace()
  /** Words copied out of one entry travel as a fragment; a selection over several entries as the browser copies it. */
  const onCopy = (event: ClipboardEvent): void => {
    const selection = isTyping(document.activeElement) ? null : findSelection(workspace, event.currentTarget)
    if (!selection || selection.isCut) return
    writeFragment(event.clipboardData, selection.fragment)
    event.preventDefault()
  }
  return (
    <LogLandings>
      <div className="st-log-tops">
        <ProblemStrip />
        <FilterBar store={store} shown={shown} all={all} />
      </div>
      <div className="st-log-place" onCopy={onCopy}>
        {shown > 0 ? <Log rows={rows} count={shown} store={store} /> : <Nothing store={store} all={all} />}
      </div>
      <Striking store={store} />
    </LogLandings>
  )
}

function Nothing({ store, all }: { readonly store: JournalStore; readonly all: number }) {
  if (all > 0)
    return (
      <EmptyState
        icon={JournalIcon}
        purpose="No entry fits the filter."
        action={<Button onClick={() => clearFilter(store)}>Show all</Button>}
      />
    )
  return (
    <EmptyState
      icon={JournalIcon}
      purpose="The journal is written while you work: what you did, what the machine answered, what went wrong and what put it right."
      hint={
        <>
          Write the first entry below (<Kbd keys={COMPOSER_KEYS} />
          ), or drag words here from a source.
        </>
      }
    />
  )
}

function Striking({ store }: { readonly store: JournalStore }) {
  const striking = useStore(store, (state) => state.striking)
  if (!striking) return null
  const { id, text } = striking
  const close = (): void => {
    store.setState({ striking: null, selected: null })
    focusEntry(store, id)
  }
  return <StrikeOut node={{ kind: 'entry', id }} text={text} onClose={close} />
}
