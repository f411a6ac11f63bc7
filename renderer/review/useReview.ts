/** Binds the review of a window to React. */
import { useEffect } from 'react'
import { useStore } from 'zustand'
import { useWorkspace } from '../store/useWorkspace.ts'
import { reviewerOf, type Reviewer, type ReviewState } from './reviewer.ts'

export function useReviewer(): Reviewer {
  return reviewerOf(useWorkspace())
}

/** A part of what the review is at. Keeps nothing up to date by itself: see `useLooking`. */
export function useReviewState<T>(select: (state: ReviewState) => T): T {
  return useStore(useReviewer().store, select)
}

/** Keeps the review up to date as long as the component is on the screen. */
export function useLooking(): void {
  const reviewer = useReviewer()
  useEffect(() => reviewer.look(), [reviewer])
}
