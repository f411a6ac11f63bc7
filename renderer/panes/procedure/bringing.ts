/** Bringing something of the procedure into view that may have to be drawn first. */
import type { PartId } from '../../../shared/lab/ids.ts'
import type { Workspace } from '../../store/workspace.ts'
import { setPane } from './paneStore.ts'

/** Frames in which what is wanted must have been drawn. */
const PATIENCE = 30

/** Shows a part in the middle of the pane; the keyboard stays where it is. */
export function showPart(workspace: Workspace, part: PartId): void {
  const step = workspace.requireView().parts.get(part)?.step
  if (step) setPane({ current: step })
  bringIntoView(`[data-node="${part}"]`)
}

/** Scrolls to the first element of the shown procedure that a selector finds, as soon as it is drawn. */
export function bringIntoView(selector: string, frames = PATIENCE): void {
  requestAnimationFrame(() => {
    const element = document.querySelector(`.st-procedure ${selector}`)
    if (element) element.scrollIntoView({ block: 'center' })
    else if (frames > 0) bringIntoView(selector, frames - 1)
  })
}
