/** Which remarks are unfolded and which is being written, in this window only. Created without React. */
import { create } from 'zustand'
import type { RemarkId, StepId } from '../../shared/lab/ids.ts'
import type { Remark } from '../../shared/lab/model.ts'
import { RemarkIcon } from '../ui/icons.tsx'
import type { MenuItem } from '../ui/MenuList.tsx'

interface RemarksState {
  readonly unfolded: ReadonlySet<StepId>
  /** What is being written on a step, so that folding or moving it loses nothing. */
  readonly writing: ReadonlyMap<StepId, string>
  /** What is being changed in remarks that stand, kept for the same reason. */
  readonly rewording: ReadonlyMap<RemarkId, { readonly step: StepId; readonly text: string }>
}

export const useRemarks = create<RemarksState>(() => ({
  unfolded: new Set(),
  writing: new Map(),
  rewording: new Map(),
}))

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

/** @param text null where the remark is not being changed any more */
export function setRewording({ id, step }: Pick<Remark, 'id' | 'step'>, text: string | null): void {
  const rewording = new Map(useRemarks.getState().rewording)
  if (text === null) rewording.delete(id)
  else rewording.set(id, { step, text })
  useRemarks.setState({ rewording })
}

/** Whether a remark on a step is being written or changed. */
export function isWritingOn(step: StepId): boolean {
  const { writing, rewording } = useRemarks.getState()
  return writing.has(step) || [...rewording.values()].some((one) => one.step === step)
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
