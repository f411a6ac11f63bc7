/** Reads the Markdown of entries near those in the page while nothing else is to be done, so that scrolling finds it read. */
import { useEffect } from 'react'
import type { Workspace } from '../../store/workspace.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { prepareMarkdown } from '../../ui/Markdown.tsx'
import { findCommands } from './entryCommands.ts'
import type { LogRow } from './rows.ts'

/** So many rows are read on either side of those in the page. */
const ROWS = 40
/** What reading one text may take, at most, in nearly every case. Milliseconds. */
const ONE_TEXT = 2

/** @param first the first row in the page @param last the last one */
export function useReadingAhead(rows: readonly LogRow[], first: number, last: number): void {
  const workspace = useWorkspace()
  useEffect(() => {
    const wanted = [
      ...rows.slice(last + 1, last + 1 + ROWS),
      ...rows.slice(Math.max(0, first - ROWS), first).reverse(),
    ]
    const read = (deadline: IdleDeadline): void => {
      while (wanted.length > 0 && deadline.timeRemaining() > ONE_TEXT) readRow(workspace, wanted.shift()!)
      if (wanted.length > 0) call = requestIdleCallback(read)
    }
    let call = requestIdleCallback(read)
    return () => cancelIdleCallback(call)
  }, [workspace, rows, first, last])
}

function readRow(workspace: Workspace, row: LogRow): void {
  const text = row.kind === 'entry' ? workspace.state.view?.texts.get(row.entry.id) : undefined
  if (text === undefined || row.kind !== 'entry') return
  prepareMarkdown(text)
  if (row.entry.kind === 'action') findCommands(text)
}
