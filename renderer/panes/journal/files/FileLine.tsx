/** Above the content of a file entry: its path, owner and mode, and the way to its other states. */
import { useMemo, type ReactNode } from 'react'
import { fileOf } from '../../../../shared/journal/entry-facts.ts'
import { shownModeOf } from '../../../../shared/journal/files/mode.ts'
import type { Entry, FileState } from '../../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import { Button } from '../../../ui/index.ts'
import { EarlierIcon, KindFileIcon } from '../../../ui/icons.tsx'
import { setFile } from '../entryMarks.ts'
import { focusEntry, setIn, type JournalStore } from '../journalState.ts'
import { useEntryMarks } from '../useEntry.ts'
import { FileForm } from './FileForm.tsx'
import { statesInOrder } from './fileStates.ts'
import './files.css'

export interface FileLineProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly tabIndex: number
  readonly isNaming: boolean
}

export function FileLine({ entry, store, tabIndex, isNaming }: FileLineProps): ReactNode {
  const workspace = useWorkspace()
  const file = fileOf(entry, useEntryMarks(entry.id))
  const others = useOthers(entry)
  if (!file) return null
  const close = (): void => {
    setIn(store, 'naming', entry.id, false)
    focusEntry(store, entry.id)
  }
  if (isNaming)
    return (
      <FileForm
        file={file}
        onCancel={close}
        onKeep={(next) => void setFile(workspace, entry, next).then(close)}
      />
    )
  return (
    <div className="st-file-line">
      <Button
        look="quiet"
        icon={KindFileIcon}
        className="st-entry-fact st-file-path"
        label={`${file.path}: which file it is`}
        tabIndex={tabIndex}
        onClick={() => setIn(store, 'naming', entry.id, true)}
      >
        {file.path}
      </Button>
      <span className="st-file-facts">{wordsOfFile(file)}</span>
      <Button
        look="quiet"
        icon={EarlierIcon}
        className="st-entry-fact"
        tabIndex={tabIndex}
        onClick={() => workspace.set({ panel: { kind: 'file', entry: entry.id } })}
      >
        {others > 1 ? `${others} states` : 'Content'}
      </Button>
    </div>
  )
}

/** `root:root rw-r--r--, a difference` */
export function wordsOfFile({ owner, group, mode, form }: FileState): string {
  const who = (owner ?? group) ? `${owner ?? '?'}${group ? `:${group}` : ''}` : ''
  return [who, mode ? shownModeOf(mode) : '', form === 'diff' ? 'a difference' : '']
    .filter((words) => words !== '')
    .join(' ')
}

/** How many states of its path the project's journal holds. */
function useOthers(entry: Entry): number {
  const entries = useWorkspaceState(({ view }) => view?.entries)
  const withdrawn = useWorkspaceState(({ view }) => view?.withdrawn)
  const marks = useWorkspaceState(({ view }) => view?.marks)
  return useMemo(
    () => (entries && withdrawn && marks ? statesInOrder(entry, { entries, withdrawn, marks }).length : 0),
    [entry, entries, withdrawn, marks],
  )
}
