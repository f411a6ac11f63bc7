import { useEffect, useRef, type FocusEvent } from 'react'
import { useStore } from 'zustand'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, ProgressLine } from '../../ui/index.ts'
import { CloseIcon, WarningIcon } from '../../ui/icons.tsx'
import type { IntakeProblem, QueueState } from './intakeQueue.ts'
import type { SourceForm } from './form.ts'
import { isBlank } from './formDraft.ts'
import { takingOf } from './taking.ts'
import { BookmarksAsked } from './taking/BookmarksAsked.tsx'
import { RunReport } from './taking/RunReport.tsx'
import './taking/taking.css'

/** What is being taken in right now, what was refused, what the person is asked, and what runs came to. */
export function IntakeStatus({ form }: { readonly form: SourceForm }) {
  const { queue, board } = takingOf(useWorkspace())
  const { current, waiting, problems } = useStore(queue.store)
  const { reports, questions } = useStore(board.store)
  const told = useKeptFocus(problems, reports, questions)
  const isQuiet = !current && problems.length + reports.length + questions.length === 0
  return (
    <div className={isQuiet ? 'st-unseen' : 'st-intake'} {...told}>
      {current ? <Now current={current} waiting={waiting} /> : null}
      {problems.length > 0 ? (
        <ul className="st-intake-problems" aria-label="What could not be added">
          {problems.map((problem) => (
            <Problem
              key={problem.id}
              problem={problem}
              form={form}
              onDismiss={() => queue.dismiss(problem.id)}
            />
          ))}
        </ul>
      ) : null}
      {/* There before its words, since a live region tells only what comes into it. */}
      <div className="st-intake-told" role="status">
        {questions.map((question) => (
          <BookmarksAsked key={question.id} question={question} />
        ))}
        {reports.map((report) => (
          <RunReport key={report.id} report={report} />
        ))}
      </div>
    </div>
  )
}

/** When what had the keyboard's focus is taken away, the focus goes to the pane and not out of it. */
function useKeptFocus(problems: unknown, reports: unknown, questions: unknown) {
  const ref = useRef<HTMLDivElement>(null)
  const hadFocus = useRef(false)
  useEffect(() => {
    if (!hadFocus.current || document.activeElement !== document.body) return
    hadFocus.current = false
    ref.current?.closest<HTMLElement>('.st-sources')?.focus()
    // Each of them is a new value when something of it goes.
  }, [problems, reports, questions])
  return {
    ref,
    onFocus: () => {
      hadFocus.current = true
    },
    onBlur: ({ relatedTarget }: FocusEvent) => {
      if (relatedTarget !== null) hadFocus.current = false
    },
  }
}

interface NowProps {
  readonly current: NonNullable<QueueState['current']>
  readonly waiting: number
}

function Now({ current: { words, share, at, of }, waiting }: NowProps) {
  const { queue } = takingOf(useWorkspace())
  const place = of > 1 ? `, ${at.toLocaleString('en')} of ${of.toLocaleString('en')}` : ''
  const behind = waiting - (of - at)
  const more = behind > 0 ? `, ${behind.toLocaleString('en')} more wait` : ''
  return (
    <div className="st-intake-now">
      <ProgressLine words={`${words}${place}${more}`} share={share} />
      <div className="st-button-row">
        <Button look="quiet" onClick={() => queue.cancel()}>
          {waiting > 0 ? 'Cancel this' : 'Cancel'}
        </Button>
        {waiting > 0 ? (
          <Button look="quiet" onClick={() => queue.cancelAll()}>
            Cancel all
          </Button>
        ) : null}
      </div>
    </div>
  )
}

interface ProblemProps {
  readonly problem: IntakeProblem
  readonly form: SourceForm
  readonly onDismiss: () => void
}

function Problem({ problem, form, onDismiss }: ProblemProps) {
  const { sentence, rescue } = problem
  const rescueIt = () => {
    form.change({ text: rescue ?? '', html: null, wasPasted: true })
    form.open()
    onDismiss()
  }
  return (
    <li className="st-error" role="alert">
      <WarningIcon weight="fill" />
      <div className="st-error-words">
        <p>{sentence}</p>
        {rescue !== null && isBlank(form.fields) ? (
          <Button onClick={rescueIt}>Put its words into the form</Button>
        ) : null}
      </div>
      <Button look="quiet" icon={CloseIcon} label="Dismiss" onClick={onDismiss} />
    </li>
  )
}
