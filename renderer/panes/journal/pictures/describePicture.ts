/** Gives a picture of an entry another description: an amendment, so that what stood before stays readable. */
import { describingOf, picturesIn } from '../../../../shared/journal/pictures/named.ts'
import { writeText } from '../../../../shared/lab/acts.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'
import { toChangeSetJson } from '../../../../shared/lab/text.ts'
import { offerUndo } from '../../../store/gestures.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { toChanges } from '../tidying/proposals.ts'

export interface PictureOfEntry {
  readonly entry: EntryId
  /** Its place among the pictures of the entry's text. */
  readonly at: number
  readonly sha256: string
  /** As it was seen when the new one was typed. */
  readonly description: string
}

/** @returns whether it stands now; where the entry was changed meanwhile, that is said with the words that were typed */
export async function describePicture(
  workspace: Workspace,
  { entry, at, sha256, description }: PictureOfEntry,
  typed: string,
): Promise<boolean> {
  if (typed.trim() === description.trim()) return true
  const lab = workspace.requireLab()
  const standing = await lab.queries.standing(entry)
  const present = standing && picturesIn(standing.text)[at]
  const isSame = present?.sha256 === sha256
  if (isSame && present.description === typed.trim()) return true
  const words = standing && isSame ? describingOf(standing.text, at, typed) : null
  if (!standing || !words) {
    workspace.say('problem', `The entry shows another picture there by now, so “${typed}” was not kept.`)
    return false
  }
  const changes = toChangeSetJson(toChanges([words], standing.text.length))
  const { change } = writeText(lab.surroundings, { kind: 'entry', id: entry }, standing.revision, changes)
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, 'Described. What stood before stays readable.', change.id)
  return isDone
}
