/** What was passed over, folded, each with its reason and the way back; apart from it what is not found any more. */
import { useMemo } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { maybeRule } from '../../shared/procedure/review/review.ts'
import type { ReviewedSilence } from '../../shared/procedure/review/types.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { forget, hear } from './acts.ts'
import { WordsAtFault } from './FindingItem.tsx'
import type { Listed } from './listed.ts'
import { namesOfRows } from './names.ts'
import { Silenced } from './Silenced.tsx'

interface PassedOverProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  readonly listed: Listed
}

export function PassedOver({ view, procedure, listed: { passedOver, spent } }: PassedOverProps) {
  const workspace = useWorkspace()
  const nameOf = useMemo(() => namesOfRows(view, procedure), [view, procedure])
  return (
    <>
      <Silenced
        name="Passed over"
        act={{ letter: 'H', words: 'Hear it again' }}
        lines={passedOver.map((finding) => ({
          key: finding.key,
          rule: nameOfRule(finding),
          where: nameOf(finding.step),
          words: finding.isStale ? null : <WordsAtFault view={view} finding={finding} />,
          reason: finding.silence.reason,
          onAct: () => void hear(workspace, finding),
        }))}
      />
      <Silenced
        name="Passed over and not found any more"
        act={{ letter: 'F', words: 'Forget it' }}
        lines={spent.map((silence) => ({
          key: silence.id,
          rule: nameOfRule(silence),
          where:
            silence.step !== null && !view.steps.has(silence.step)
              ? 'A step that is gone'
              : nameOf(silence.step),
          words: <WordsBefore words={silence.words} />,
          reason: silence.reason,
          onAct: () => void forget(workspace, silence),
        }))}
      >
        <p className="st-finding-why">
          The words were changed, or the step is gone. Where they come back, they are passed over again.
        </p>
      </Silenced>
    </>
  )
}

/** A lab may be older or newer than the rules. */
const nameOfRule = ({ rule }: Pick<ReviewedSilence, 'rule'>): string => maybeRule(rule)?.name ?? rule

function WordsBefore({ words }: Pick<ReviewedSilence, 'words'>) {
  if (words === '') return null
  return (
    <blockquote className="st-finding-words">
      <span>{words}</span>
    </blockquote>
  )
}
