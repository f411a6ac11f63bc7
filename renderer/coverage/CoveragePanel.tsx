/** What is missing in a procedure: a picture, and what of the journal and of the procedure has no counterpart. */
import { useMemo, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { useProjectAnswer } from '../store/useProjectAnswer.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { ErrorSentence, Kbd, ProgressLine } from '../ui/index.ts'
import { CoverageBar } from './CoverageBar.tsx'
import { CoverageLists } from './CoverageLists.tsx'
import './coverage.css'

export function CoveragePanel({ procedure }: { readonly procedure: ProcedureId }): ReactNode {
  const workspace = useWorkspace()
  const argument = useMemo(() => ({ procedure }), [procedure])
  const { answered, hasFailed, fresh } = useProjectAnswer('coverage', argument)
  return (
    <Panel
      title="What is missing"
      band="sources"
      className="st-coverage"
      onClose={() => workspace.set({ panel: null })}
    >
      <div
        className="st-panel-body st-scroll"
        tabIndex={0}
        role="group"
        aria-label="What is missing in the procedure"
        data-coverage
      >
        {hasFailed ? (
          <ErrorSentence
            happened="It could not be worked out."
            safe="Nothing was changed."
            next="Close the list and open it again."
          />
        ) : !answered ? (
          <ProgressLine words="Comparing the journal and the procedure" share={null} />
        ) : answered.answer === null ? (
          <p>The procedure is gone.</p>
        ) : (
          <>
            <CoverageBar counts={answered.answer.counts} />
            <Passed passed={answered.answer.passed} failed={answered.answer.failed} />
            <p className="st-coverage-keys">
              <Kbd keys="C" /> carries over, <Kbd keys="L" /> leaves out, <Kbd keys="Enter" /> shows where it
              stands.
            </p>
            <CoverageLists
              model={answered.answer}
              sequence={answered.sequence}
              procedure={procedure}
              fresh={fresh}
            />
          </>
        )}
      </div>
    </Panel>
  )
}

/** What is not listed, so that nobody wonders where it is. */
function Passed({ passed, failed }: { readonly passed: number; readonly failed: number }) {
  const words = [
    ...(passed > 0 ? [`${passed} undone or replaced later`] : []),
    ...(failed > 0 ? [`${failed} failed`] : []),
  ]
  return words.length === 0 ? null : <p className="st-coverage-note">Not counted: {words.join(', ')}.</p>
}
