/** Which remarks are unfolded and which is being written, in this window only. Created without React. */
import { create } from 'zustand'
import type { StepId } from '../../shared/lab/ids.ts'
import { RemarkIcon } from '../ui/icons.tsx'
import type { MenuItem } from '../ui/MenuList.tsx'

interface RemarksState {
  readonly unfolded: ReadonlySet<StepId>
  /** What is being written on a step, so that folding or moving it loses nothing. */
  readonly writing: ReadonlyMap<StepId, string>
}

export const useRemarks = create<RemarksState>(() => ({ unfolded: new Set(), writing: new Map() }))

export function setUnfolded(step: StepId, isUnfolded: boolean): void {
  const unfolded = new Set(useRemarks.getState().unfolded)
  if (isUnfolded) unfolded.add(step)
  else unfolded.delete(step)
  useRemarks.setState({ unfolded })
}

/** @param text null where nothing is written any more */
export function setWriting(step: StepId, text: string | null): void {
  const writing = new Map(useRemarks.getState().writing)
  if (text === null) writing.delete(step)
  else writing.set(step, text)
  useRemarks.setState({ writing })
}

/** Begins a remark, or goes on with the one that was begun. */
export function beginRemark(step: StepId): void {
  setUnfolded(step, true)
  if (!useRemarks.getState().writing.has(step)) setWriting(step, '')
}

/** The line of a step's menu. */
export function lineOfRemarking(step: StepId): MenuItem {
  return {
    id: 'remark',
    word: 'Add a remark…',
    icon: RemarkIcon,
    hint: 'Alt+R',
    onChoose: () => beginRemark(step),
  }
}
