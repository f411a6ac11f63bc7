/** Which finding is about to be passed over, and the reason as far as it is written; in this window only, so that nothing typed is lost. */
import { create } from 'zustand'

interface Passing {
  /** Of the finding; null while none is. */
  readonly key: string | null
  readonly reason: string
}

const none: Passing = { key: null, reason: '' }

export const usePassing = create<Passing>(() => none)

/** Begins a reason, or goes on with the one that was begun. */
export function beginPassing(key: string): void {
  if (usePassing.getState().key !== key) usePassing.setState({ key, reason: '' })
}

export function setReason(reason: string): void {
  usePassing.setState({ reason })
}

export function endPassing(): void {
  usePassing.setState(none)
}
