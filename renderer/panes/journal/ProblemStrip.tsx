/** The open problems, in sight while there are any. */
import { useEffect, useMemo, useState, type ReactNode } from 'react'
import { problemsOf, wordsOfOpen, type Problem } from '../../../shared/journal/problems.ts'
import { systemClock } from '../../../shared/lab/moment.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { KindProblemIcon } from '../../ui/icons.tsx'

/** How often the age of an open problem is read anew. Milliseconds. */
const READ_EVERY = 20_000

export function ProblemStrip(): ReactNode {
  const workspace = useWorkspace()
  const problems = useProblems()
  const now = useNow(problems.some(({ ended }) => ended === null))
  const words = wordsOfOpen(problems, now)
  if (words === null) return null
  const open = problems.filter(({ ended }) => ended === null)
  return (
    <div className="st-problem-strip" role="group" aria-label="Open problems">
      <Button
        look="quiet"
        icon={KindProblemIcon}
        className="st-problem-strip-words"
        label={`${words}: go to the oldest`}
        onClick={() => workspace.goTo({ kind: 'entry', id: open[0]!.entry.id })}
      >
        {words}
      </Button>
      <Button
        look="quiet"
        label="All problems of this project"
        icon={KindProblemIcon}
        onClick={() => workspace.set({ panel: { kind: 'problems', of: 'project' } })}
      >
        All problems
      </Button>
    </div>
  )
}

/** The problems of the open project. */
export function useProblems(): readonly Problem[] {
  const entries = useWorkspaceState(({ view }) => view?.entries)
  const withdrawn = useWorkspaceState(({ view }) => view?.withdrawn)
  const marks = useWorkspaceState(({ view }) => view?.marks)
  const links = useWorkspaceState(({ view }) => view?.links)
  return useMemo(
    () =>
      entries && withdrawn && marks && links
        ? problemsOf({ entries, withdrawn, marks, links: links.values() })
        : [],
    [entries, withdrawn, marks, links],
  )
}

function useNow(isRunning: boolean) {
  const [now, setNow] = useState(() => systemClock.now())
  useEffect(() => {
    if (!isRunning) return
    const renew = (): void => setNow(systemClock.now())
    renew()
    const timer = setInterval(renew, READ_EVERY)
    return () => clearInterval(timer)
  }, [isRunning])
  return now
}
