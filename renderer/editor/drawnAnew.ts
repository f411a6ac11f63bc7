/**
 * What a text that is being typed was left with when the page draws it anew at another place, as when its row goes far in a
 * long procedure: typing goes on there where it was.
 */
import type { EarlyKeys } from './earlyKeys.ts'

export interface LeftText {
  readonly text: string
  readonly selection: { readonly anchor: number; readonly head: number }
}

const left = new Map<string, LeftText | EarlyKeys>()

/** Leaves it to the editor of the same text that is drawn in the same commit of the page, and to none that comes later. */
export function leaveToNext(node: string, what: LeftText | EarlyKeys): void {
  left.set(node, what)
  queueMicrotask(() => {
    if (left.get(node) === what) left.delete(node)
  })
}

/** What the editor that goes away at this moment has left; undefined where none does. */
export function maybeLeft(node: string): LeftText | EarlyKeys | undefined {
  const what = left.get(node)
  left.delete(node)
  return what
}
