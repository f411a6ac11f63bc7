/** What ribbons are about, in this window only: nothing of it is kept. Created without React. */
import { create } from 'zustand'
import type { Subject } from './subject.ts'

export interface RibbonsState {
  /** Whether the links of all that is in view are shown. */
  readonly isAll: boolean
  /** What the keyboard is at. */
  readonly focused: Subject | null
  /** What the pointer rests on; it comes before what the keyboard is at. */
  readonly pointed: Subject | null
  /** Said to those who listen. */
  readonly said: string
}

export const noRibbons: RibbonsState = { isAll: false, focused: null, pointed: null, said: '' }

export const useRibbons = create<RibbonsState>(() => noRibbons)

/** Changes what ribbons are about. The same thing said twice changes nothing. */
export function setRibbons(state: Partial<RibbonsState>): void {
  const now = useRibbons.getState()
  const next = { ...state }
  if (next.focused && next.focused.key === now.focused?.key) delete next.focused
  if (next.pointed && next.pointed.key === now.pointed?.key) delete next.pointed
  useRibbons.setState(next)
}

export function toggleAll(): void {
  const isAll = !useRibbons.getState().isAll
  setRibbons({
    isAll,
    said: isAll ? 'The links of all that is in view are shown.' : 'Links are shown for one thing at a time.',
  })
}
