/** Problems of the project or of the lab: what it was, what ended it, how long it took. */
import { useMemo, type ReactNode } from 'react'
import { problemsOf, wordsOfDuration, type Problem } from '../../shared/journal/problems.ts'
import { instantOf, systemClock } from '../../shared/lab/moment.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import type { OpenLab } from '../db/lab.ts'
import { goToEntry } from '../store/goToEntry.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, EmptyState, ErrorSentence, ProgressLine } from '../ui/index.ts'
import { KindFixIcon, KindProblemIcon } from '../ui/icons.tsx'
import './problems.css'

const read = (lab: OpenLab) => lab.queries.labProblems()

export function ProblemsPanel({ of }: { readonly of: 'project' | 'lab' }): ReactNode {
  const workspace = useWorkspace()
  const close = (): void => workspace.set({ panel: null })
  const set = (next: 'project' | 'lab'): void => workspace.set({ panel: { kind: 'problems', of: next } })
  return (
    <Panel title="Problems" band="procedure" className="st-problems-panel" onClose={close}>
      <div className="st-problems-choice" role="group" aria-label="Whose problems">
        <Button look="quiet" pressed={of === 'project'} onClick={() => set('project')} data-first>
          This project
        </Button>
        <Button look="quiet" pressed={of === 'lab'} onClick={() => set('lab')}>
          All of the lab
        </Button>
      </div>
      <Problems of={of} />
    </Panel>
  )
}

function Problems({ of }: { readonly of: 'project' | 'lab' }) {
  const records = useLabRead(read)
  const project = useWorkspaceState((state) => state.view?.project)
  const problems = useMemo(() => {
    if (!records || records === 'failed') return []
    const all = problemsOf(records)
    return of === 'lab' ? all : all.filter(({ entry }) => entry.project === project)
  }, [records, of, project])
  if (records === undefined) return <ProgressLine words="Reading the problems" share={null} />
  if (records === 'failed')
    return (
      <ErrorSentence
        happened="The problems could not be read."
        safe="Nothing was changed."
        next="Close the list and open it again."
      />
    )
  const open = problems.filter(({ ended }) => ended === null)
  const ended = problems.filter((one) => one.ended !== null).reverse()
  return (
    <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="The problems">
      {problems.length === 0 ? (
        <EmptyState
          icon={KindProblemIcon}
          purpose="What went wrong stands here, with what ended it and how long that took. No problem was written down yet."
        />
      ) : null}
      <List title="Open" problems={open} texts={records.texts} isOfLab={of === 'lab'} />
      <List title="Ended" problems={ended} texts={records.texts} isOfLab={of === 'lab'} />
    </div>
  )
}

interface ListProps {
  readonly title: string
  readonly problems: readonly Problem[]
  readonly texts: ReadonlyMap<string, string>
  readonly isOfLab: boolean
}

function List({ title, problems, texts, isOfLab }: ListProps) {
  if (problems.length === 0) return null
  return (
    <>
      <h3 className="st-trace-heading">
        {title}, {problems.length}
      </h3>
      <ol className="st-problems">
        {problems.map((problem) => (
          <ProblemRow key={problem.entry.id} problem={problem} texts={texts} isOfLab={isOfLab} />
        ))}
      </ol>
    </>
  )
}

function ProblemRow({
  problem: { entry, since, ended, took },
  texts,
  isOfLab,
}: {
  readonly problem: Problem
  readonly texts: ReadonlyMap<string, string>
  readonly isOfLab: boolean
}) {
  const workspace = useWorkspace()
  const projects = useWorkspaceState((state) => state.projects)
  const title = projects.find(({ id }) => id === entry.project)?.title
  const age = Math.max(0, instantOf(systemClock.now()) - instantOf(since))
  return (
    <li className="st-problem">
      <p className="st-problem-facts">
        {since.slice(0, 10)} {since.slice(11, 16)}
        {isOfLab && title ? `, ${title}` : ''}
        {ended
          ? took === null
            ? ''
            : `, took ${wordsOfDuration(took)}`
          : `, open for ${wordsOfDuration(age)}`}
      </p>
      <Button
        look="quiet"
        icon={KindProblemIcon}
        className="st-problem-words st-kind--problem"
        onClick={() => void goToEntry(workspace, entry)}
      >
        {wordsOf(texts.get(entry.id))}
      </Button>
      {ended ? (
        <Button
          look="quiet"
          icon={KindFixIcon}
          className="st-problem-words st-kind--fix"
          onClick={() => void goToEntry(workspace, ended.entry)}
        >
          {wordsOf(texts.get(ended.entry.id))}
        </Button>
      ) : null}
    </li>
  )
}

const MOST_WORDS = 160

/** The words alone: a fence or a mark of emphasis says nothing here. */
const wordsOf = (text = ''): string => plainWords(text, MOST_WORDS) || 'no text'
