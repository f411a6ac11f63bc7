/** Opening the review: by a line of a menu and by a key. */
import { useEffect } from 'react'
import type { PartId, StepId } from '../../shared/lab/ids.ts'
import type { Workspace } from '../store/workspace.ts'
import { ReviewIcon } from '../ui/icons.tsx'
import { isAltLetter } from '../ui/keys.ts'
import type { MenuItem } from '../ui/MenuList.tsx'

/** Opens the review of the procedure that is shown, or brings the keyboard back to it. K for check. */
export const REVIEW_KEYS = 'Alt+K'

/** @param at the step, or the part of the procedure's own, whose findings the keyboard goes to; null for the first of all */
export function showReview(workspace: Workspace, at: StepId | PartId | null = null): void {
  workspace.set({ panel: { kind: 'review', at } })
}

export function lineOfReview(workspace: Workspace): MenuItem {
  return {
    id: 'review',
    word: 'Review…',
    icon: ReviewIcon,
    hint: REVIEW_KEYS,
    onChoose: () => showReview(workspace),
  }
}

/** Listens for the key while a procedure is shown. */
export function useReviewKey(workspace: Workspace): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'K') || document.querySelector('dialog:modal')) return
      event.preventDefault()
      showReview(workspace)
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [workspace])
}
