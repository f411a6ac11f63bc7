/** Text that comes from another program becomes a part without a link. */
import { insertInto } from '../../../shared/distil/distil.ts'
import type { LandingPlace } from '../../../shared/distil/landing.ts'
import { writeText, type Surroundings, type StandingText } from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { Part, StepPartKind, TextNode } from '../../../shared/lab/model.ts'
import { replacing, toStorableText } from '../../../shared/lab/text.ts'
import { beginPartOf, beginStep, undo } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'

/** What plain text becomes unless the person points at another place. */
export const plainKind: StepPartKind = 'do'

/**
 * Sets text at the end of a part that stands, as a block of its own.
 * @returns null where the text is nothing but white space
 */
export function appendPlain(
  around: Surroundings,
  node: TextNode,
  standing: StandingText,
  plain: string,
): Change | null {
  const words = toStorableText(plain).replace(/^\s*\n|\s+$/gu, '')
  if (words.trim() === '') return null
  const { length } = standing.text
  const { text } = insertInto(standing.text, length, { text: words, ranges: [] })
  const changeSet = replacing(length, { start: length, end: length }, text)
  return writeText(around, node, standing.revision, changeSet).change
}

/** Brings plain text to a place of a procedure. @returns the part that holds it now; null where nothing was brought */
export async function bringPlainText(
  workspace: Workspace,
  plain: string,
  place: LandingPlace,
): Promise<Part | null> {
  if (plain.trim() === '') return null
  await workspace.flushTexts()
  const part = await partAt(workspace, place)
  if (!part) return null
  const lab = workspace.requireLab()
  const standing = await lab.queries.standing(part.id)
  const node: TextNode = { kind: 'part', id: part.id }
  const change = standing ? appendPlain(lab.surroundings, node, standing, plain) : null
  if (!change || !(await workspace.commit(change))) return null
  workspace.say('done', 'Brought in as text. It came from another program, so no link leads back from it.', {
    word: 'Undo',
    onAct: () => void undo(workspace, change.id),
  })
  workspace.goTo(node)
  return part
}

async function partAt(workspace: Workspace, place: LandingPlace): Promise<Part | null> {
  const view = workspace.requireView()
  switch (place.at) {
    case 'journal':
      return null
    case 'new step':
      return beginStep(workspace, place.procedure, place.after ? (view.steps.get(place.after) ?? null) : null)
    case 'step': {
      const step = view.steps.get(place.step)
      return step ? beginPartOf(workspace, step, place.kind ?? plainKind) : null
    }
    case 'text':
      return view.parts.get(place.part) ?? null
  }
}
