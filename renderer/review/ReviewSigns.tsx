/** The quiet signs of the review in the procedure pane: the count at its head, and one where something is open. */
import type { ReactNode } from 'react'
import type { PartId, StepId } from '../../shared/lab/ids.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { ReviewIcon } from '../ui/icons.tsx'
import { countOpen } from './listed.ts'
import { REVIEW_KEYS, showReview, useReviewKey } from './open.ts'
import { useLooking, useReviewState } from './useReview.ts'
import { countInWords } from './words.ts'
import './review.css'

/** Opens the review. Says how much is open as soon as that is known. */
export function ReviewButton(): ReactNode {
  const workspace = useWorkspace()
  const count = useReviewState(({ listed }) => (listed ? countOpen(listed) : 0))
  useLooking()
  useReviewKey(workspace)
  const label = count === 0 ? 'Review' : `Review, ${countInWords(count)}`
  if (count === 0)
    return (
      <Button
        look="quiet"
        icon={ReviewIcon}
        label={label}
        keys={REVIEW_KEYS}
        onClick={() => showReview(workspace)}
      />
    )
  return (
    <Button
      look="quiet"
      icon={ReviewIcon}
      label={label}
      keys={REVIEW_KEYS}
      onClick={() => showReview(workspace)}
    >
      <span className="st-review-number">{count}</span>
    </Button>
  )
}

interface FindingsAtProps {
  /** A row, or a part of the procedure's own. */
  readonly at: StepId | PartId
  /** As in a sentence: "step 3.1", "the purpose". */
  readonly name: string
  readonly tabIndex: number
}

/** Opens the review at a row or at a part of the procedure's own; nothing where nothing is open there. */
export function FindingsAt({ at, name, tabIndex }: FindingsAtProps): ReactNode {
  const workspace = useWorkspace()
  const count = useReviewState(({ listed }) => listed?.openAt.get(at) ?? 0)
  if (count === 0) return null
  return (
    <Button
      look="quiet"
      icon={ReviewIcon}
      className="st-step-findings"
      label={`${countInWords(count)} at ${name}: review`}
      tabIndex={tabIndex}
      onClick={() => showReview(workspace, at)}
    />
  )
}
