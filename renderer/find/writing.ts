/** Where a person is writing, so that what is found can be carried there. */
import { EditorView } from '@codemirror/view'
import type { LandingPlace } from '../../shared/distil/landing.ts'
import { ownLandingKinds } from '../../shared/distil/landing.ts'
import type { PartId, StepId } from '../../shared/lab/ids.ts'
import type { Part } from '../../shared/lab/model.ts'
import type { ProjectView } from '../store/view.ts'

/** A place to carry to, found when it is wanted: a cursor may stand elsewhere by then. Null for none. */
export interface WritingPlace {
  readonly find: (view: ProjectView) => LandingPlace | null
  /** The editor that is written in. */
  readonly editor: EditorView | null
  /** What had the keyboard. */
  readonly element: Element | null
}

export const nowhere: WritingPlace = { find: () => null, editor: null, element: null }

/** @param element what has the keyboard */
export function writingPlaceAt(element: Element | null): WritingPlace {
  return { ...(element ? placeAt(element) : nowhere), element }
}

function placeAt(element: Element): Omit<WritingPlace, 'element'> {
  const content = element.closest<HTMLElement>('.cm-editor')
  const editor = content ? EditorView.findFromDOM(content) : null
  if (element.closest('[data-band="journal"]')) return { find: () => ({ at: 'journal' }), editor }
  const procedure = element.closest('[data-band="procedure"]')
  const text = procedure && element.closest<HTMLElement>('.st-editor[data-node]')
  if (text && editor) {
    const part = text.dataset.node as PartId
    return { find: (view) => placeInText(view.parts.get(part), editor), editor }
  }
  const step = procedure && element.closest<HTMLElement>('[data-step]')?.dataset.step
  if (step) return { find: (view) => placeOnStep(view, step as StepId), editor: null }
  const own = procedure && element.closest<HTMLElement>('[data-node]')?.dataset.node
  return own ? { find: (view) => placeInOwn(view.parts.get(own)), editor: null } : nowhere
}

function placeInText(part: Part | undefined, editor: EditorView): LandingPlace | null {
  if (!part) return null
  const offset = editor.state.selection.main.head
  return { at: 'text', part: part.id, step: part.step, kind: part.kind, offset }
}

/** A section has no parts that take words. */
function placeOnStep(view: ProjectView, id: StepId): LandingPlace | null {
  const step = view.steps.get(id)
  return !step || step.level === 'section' ? null : { at: 'step', step: id }
}

function placeInOwn(part: Part | undefined): LandingPlace | null {
  const kind = ownLandingKinds.find((one) => one === part?.kind)
  return part && kind ? { at: 'own', procedure: part.procedure, kind } : null
}
