/** Which words of which part are marked, because the person went there. */
import { useEffect, useState } from 'react'
import type { PartId } from '../../../shared/lab/ids.ts'
import type { Range } from '../../../shared/lab/model.ts'
import type { Workspace } from '../../store/workspace.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import type { ProjectView } from '../../store/view.ts'
import { setPane, usePane } from './paneStore.ts'

export interface PartMarks {
  readonly part: PartId
  readonly ranges: readonly Range[]
  /** The text that the ranges speak of; once it is another, nothing is marked. */
  readonly text: string
}

/**
 * Follows the workspace's focus into the procedure that is shown: shows the procedure that holds the part, brings the
 * part into view and the keyboard to it. Each focus is acted on once.
 * @returns the words to mark
 */
export function useFollowedFocus(workspace: Workspace, view: ProjectView): PartMarks | null {
  const focus = useWorkspaceState((state) => state.focus)
  const procedure = useWorkspaceState((state) => state.procedure)
  const current = usePane((state) => state.current)
  const [marks, setMarks] = useState<PartMarks | null>(null)
  useEffect(() => {
    if (!focus || focus.serial <= usePane.getState().focused) return
    const part = focus.node.kind === 'part' ? view.parts.get(focus.node.id) : undefined
    if (!part) {
      // Somewhere else, or gone. What was marked here stays marked while the person looks at where it came from.
      if (focus.node.kind !== 'part') setPane({ focused: focus.serial })
      return
    }
    if (part.procedure !== procedure) return workspace.set({ procedure: part.procedure })
    const element = document.querySelector<HTMLElement>(`.st-procedure [data-node="${part.id}"]`)
    // Of a long procedure only what is near the view is drawn, and the current row.
    if (!element) return part.step ? setPane({ current: part.step }) : undefined
    setPane({ focused: focus.serial, ...(part.step ? { current: part.step } : {}) })
    setMarks({ part: part.id, ranges: focus.ranges, text: view.texts.get(part.id) ?? '' })
    element.scrollIntoView({ block: 'center' })
    bringMarkIntoView(part.id)
    if (!isTyping(document.activeElement)) element.focus({ preventScroll: true })
  }, [workspace, focus, procedure, view, current])
  const isTrue = marks !== null && view.texts.get(marks.part) === marks.text
  return isTrue ? marks : null
}

/** A part may be longer than the pane: its first marked word is to be seen, as soon as it is drawn. */
function bringMarkIntoView(part: PartId): void {
  requestAnimationFrame(() =>
    requestAnimationFrame(() =>
      document
        .querySelector(`.st-procedure [data-node="${part}"] :is(mark, .st-mark)`)
        ?.scrollIntoView({ block: 'nearest' }),
    ),
  )
}

/** Whether someone is typing there, so that the keyboard must not be taken away. */
export function isTyping(element: Element | null): boolean {
  if (!(element instanceof HTMLElement)) return false
  // A list of places is over once something was carried; its field is left anyway.
  if (element.closest('.st-panel')) return false
  if (element.closest('.cm-content')?.getAttribute('aria-readonly') === 'true') return false
  return element.isContentEditable || element.matches('input, textarea, select')
}
