/** Below a problem: since when it is open, or what ended it and how long that took. */
import { useMemo, type ReactNode } from 'react'
import { problemsOf, wordsOfDuration, type Problem } from '../../../shared/journal/problems.ts'
import type { Entry } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, entryKindFaces } from '../../ui/index.ts'
import { KindFixIcon, KindProblemIcon } from '../../ui/icons.tsx'
import type { JournalStore } from './journalState.ts'
import { timeBeside } from './rows.ts'
import { useOutcomes } from './useEntry.ts'

export interface ProblemFootProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly tabIndex: number
}

export function ProblemFoot({ entry, store, tabIndex }: ProblemFootProps): ReactNode {
  const workspace = useWorkspace()
  const problem = useProblem(entry)
  if (!problem) return null
  const { ended, took, since } = problem
  if (!ended)
    return (
      <>
        <span className="st-problem-open">
          <KindProblemIcon /> Open
        </span>
        <Button
          look="quiet"
          icon={KindFixIcon}
          className="st-entry-fact"
          tabIndex={tabIndex}
          onClick={() => store.getState().composer.answer(entry.id)}
        >
          Write its fix
        </Button>
      </>
    )
  const after = took === null ? '' : `, after ${wordsOfDuration(took)}`
  const by = `${entryKindFaces[ended.entry.kind].word.toLowerCase()} of ${timeBeside(ended.at, since)}`
  return (
    <Button
      look="quiet"
      icon={KindFixIcon}
      className="st-entry-fact"
      tabIndex={tabIndex}
      onClick={() => workspace.goTo({ kind: 'entry', id: ended.entry.id })}
    >
      {`Ended by the ${by}${after}`}
    </Button>
  )
}

/** How one problem stands; undefined for an entry that is no problem, or a withdrawn one. */
function useProblem(entry: Entry): Problem | undefined {
  const links = useOutcomes(entry.id)
  const entries = useWorkspaceState(({ view }) => view?.entries)
  const withdrawn = useWorkspaceState(({ view }) => view?.withdrawn)
  const marks = useWorkspaceState(({ view }) => view?.marks)
  return useMemo(() => {
    if (!entries || !withdrawn || !marks) return undefined
    const near = links.flatMap(({ newer }) => entries.get(newer.node.id) ?? [])
    const own = new Map([entry, ...near].map((one) => [one.id as string, one]))
    return problemsOf({ entries: own, withdrawn, marks, links }).find((one) => one.entry.id === entry.id)
  }, [entry, links, entries, withdrawn, marks])
}
