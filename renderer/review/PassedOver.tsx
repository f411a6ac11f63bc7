/** What was passed over, folded, each with its reason and the way back. */
import { useMemo } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { getRule } from '../../shared/procedure/review/review.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { hear } from './acts.ts'
import { WordsAtFault } from './FindingItem.tsx'
import type { Listed } from './listed.ts'
import { namesOfRows } from './names.ts'
import { useListKeyboard } from './useListKeyboard.ts'

interface PassedOverProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  readonly findings: Listed['passedOver']
}

export function PassedOver({ view, procedure, findings }: PassedOverProps) {
  const workspace = useWorkspace()
  const nameOf = useMemo(() => namesOfRows(view, procedure), [view, procedure])
  const keys = useMemo(() => findings.map(({ key }) => key), [findings])
  const { stop, attributes } = useListKeyboard(keys, null)
  if (findings.length === 0) return null
  return (
    <details className="st-passed-over">
      <summary>Passed over, {findings.length}</summary>
      <div {...attributes} tabIndex={-1} role="group" aria-label="Passed over">
        <ul className="st-findings">
          {findings.map((finding) => (
            <li
              key={finding.key}
              className="st-finding"
              data-key={finding.key}
              tabIndex={finding.key === stop ? 0 : -1}
              aria-label={getRule(finding.rule).name}
              aria-keyshortcuts="H"
              onKeyDown={(event) => {
                if (event.key.toLowerCase() !== 'h' || event.altKey || event.ctrlKey || event.metaKey) return
                event.preventDefault()
                void hear(workspace, finding)
              }}
            >
              <p className="st-finding-rule">{getRule(finding.rule).name}</p>
              <p className="st-finding-part">{nameOf(finding.step)}</p>
              {finding.isStale ? null : <WordsAtFault view={view} finding={finding} />}
              <p className="st-finding-sentence">
                <span className="st-finding-part">Reason: </span>
                {finding.silence.reason}
              </p>
              <span className="st-finding-acts">
                <Button
                  look="quiet"
                  keys="H"
                  tabIndex={finding.key === stop ? 0 : -1}
                  onClick={() => void hear(workspace, finding)}
                >
                  Hear it again
                </Button>
              </span>
            </li>
          ))}
        </ul>
      </div>
    </details>
  )
}
