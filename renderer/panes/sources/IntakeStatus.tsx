import { useStore } from 'zustand'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, ProgressLine } from '../../ui/index.ts'
import { CloseIcon, WarningIcon } from '../../ui/icons.tsx'
import type { IntakeProblem } from './intakeQueue.ts'
import type { SourceForm } from './form.ts'
import { isBlank } from './formDraft.ts'
import { intakeOf } from './taking.ts'

/** What is being taken in right now, and what was refused. */
export function IntakeStatus({ form }: { readonly form: SourceForm }) {
  const queue = intakeOf(useWorkspace())
  const { current, waiting, problems } = useStore(queue.store)
  if (!current && problems.length === 0) return null
  return (
    <div className="st-intake">
      {current ? (
        <div className="st-intake-now">
          <ProgressLine
            words={waiting > 0 ? `${current.words}, ${waiting} more wait` : current.words}
            share={current.share}
          />
          <Button look="quiet" onClick={() => queue.cancel()}>
            Cancel
          </Button>
          {waiting > 0 ? (
            <Button look="quiet" onClick={() => queue.cancelAll()}>
              Cancel all
            </Button>
          ) : null}
        </div>
      ) : null}
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
