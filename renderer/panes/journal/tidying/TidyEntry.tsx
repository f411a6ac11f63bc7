/** Tidying an entry: what is taken becomes an amendment, and the raw text stays as the earlier one. */
import type { ReactNode } from 'react'
import type { Replacement } from '../../../../shared/journal/tidy/tidy.ts'
import { writeText } from '../../../../shared/lab/acts.ts'
import type { Entry } from '../../../../shared/lab/model.ts'
import { toChangeSetJson } from '../../../../shared/lab/text.ts'
import { offerUndo } from '../../../store/gestures.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { focusEntry, setIn, type JournalStore } from '../journalState.ts'
import { toChanges } from './proposals.ts'
import { TidyPanel } from './TidyPanel.tsx'

export interface TidyEntryProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly text: string
}

export function TidyEntry({ entry, store, text }: TidyEntryProps): ReactNode {
  const workspace = useWorkspace()
  const close = (): void => {
    setIn(store, 'tidying', entry.id, false)
    focusEntry(store, entry.id)
  }
  const take = (replacements: readonly Replacement[]): void => {
    void amend(workspace, entry, text, replacements).then((isDone) => isDone && close())
  }
  return (
    <TidyPanel
      text={text}
      promise="What stands now stays readable as the earlier text."
      onTake={take}
      onLeave={close}
    />
  )
}

/** @returns whether it was written; where the text is another one by now, that is said */
async function amend(
  workspace: Workspace,
  { id }: Entry,
  text: string,
  replacements: readonly Replacement[],
): Promise<boolean> {
  const lab = workspace.requireLab()
  const standing = await lab.queries.standing(id)
  if (standing?.text !== text) {
    workspace.say(
      'notice',
      'The entry was changed meanwhile, so nothing was tidied. Look at it again and take what fits.',
    )
    return false
  }
  const changes = toChangeSetJson(toChanges(replacements, text.length))
  const { change } = writeText(lab.surroundings, { kind: 'entry', id }, standing.revision, changes)
  const isDone = await workspace.commit(change)
  if (isDone) offerUndo(workspace, 'Tidied. What stood before stays readable.', change.id)
  return isDone
}
