/** What the procedure pane is at, in this window only: nothing of it is kept. Created without React. */
import { create } from 'zustand'
import type { PartId, StepId } from '../../../shared/lab/ids.ts'
import type { LinkNode } from '../../../shared/lab/model.ts'

/** Where the keyboard's focus is to go once it is drawn. */
export type WantedFocus =
  | { readonly kind: 'step'; readonly id: StepId }
  | { readonly kind: 'part'; readonly id: PartId }
  | { readonly kind: 'new step' }

export type CutThing =
  | { readonly kind: 'rows'; readonly rows: readonly StepId[] }
  | { readonly kind: 'part'; readonly part: PartId }

/** `at the cursor`: marks are hidden elsewhere. */
export type MarksShow = 'at the cursor' | 'always'

export interface PaneState {
  /** The part whose text is being typed; one at a time. */
  readonly editing: PartId | null
  /** The step that holds the list's one stop for Tab. */
  readonly current: StepId | null
  /** Several rows, from the one where choosing began to the one where it stands; null while none are chosen. */
  readonly picked: { readonly from: StepId; readonly to: StepId } | null
  /** What is cut and stands where it stood until the person says where it goes. */
  readonly cut: CutThing | null
  /** The step that is being dragged to another place. */
  readonly moving: StepId | null
  /** A drag from another window or program is over the pane: one of our fragments, or plain text. */
  readonly visiting: 'fragment' | 'text' | null
  readonly isExporting: boolean
  /** The row whose place is being said, or the procedure's beginning. */
  readonly placing: StepId | 'start' | null
  /** The part whose file is being named, or the step that is to get one. */
  readonly naming: PartId | StepId | null
  /** The step that a ready caution is being chosen for. */
  readonly readyFor: StepId | null
  /** Whether Markdown's marks stand in the text that is typed, or only where the cursor is. A setting of the person. */
  readonly marksShow: MarksShow
  /** The title of a procedure that is being begun; null while none is. Kept here so that folding the pane loses nothing. */
  readonly newTitle: string | null
  /** What is about to be struck out. */
  readonly striking: { readonly node: LinkNode; readonly text: string } | null
  readonly wanted: WantedFocus | null
  /** Said to those who listen: what moved where. */
  readonly said: string
  /** The last place to go to that was acted on. */
  readonly focused: number
}

export const restingPane: PaneState = {
  editing: null,
  current: null,
  picked: null,
  cut: null,
  moving: null,
  visiting: null,
  isExporting: false,
  placing: null,
  naming: null,
  readyFor: null,
  marksShow: 'at the cursor',
  newTitle: null,
  striking: null,
  wanted: null,
  said: '',
  focused: 0,
}

export const usePane = create<PaneState>(() => restingPane)

/** Changes what the pane is at. */
export function setPane(state: Partial<PaneState>): void {
  usePane.setState(state)
}

/**
 * Whether the person stays at the row where they are now: an act takes a moment, and who has gone on to another row
 * meanwhile is not to be brought back.
 * @returns a function that says so later
 */
export function stayingAtRow(): () => boolean {
  const { current } = usePane.getState()
  return () => usePane.getState().current === current
}
