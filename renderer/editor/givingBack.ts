/** What was typed for a text that is not there to take it goes back to the person: nothing typed is ever lost. */
import { copyText } from '../store/copyText.ts'
import type { Workspace } from '../store/workspace.ts'

/** So much of it is shown, in UTF-16 code units; all of it is copied. */
const MOST_SHOWN = 200

export function giveBack(workspace: Workspace, words: string): void {
  const shown = words.length > MOST_SHOWN ? `${words.slice(0, MOST_SHOWN)}…` : words
  workspace.say(
    'problem',
    `That text is not there any more, or could not be opened. What you typed: “${shown}”`,
    {
      word: 'Copy',
      onAct: () => void copyText(workspace, words),
    },
  )
}
