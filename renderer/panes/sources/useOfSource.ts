/** Taking a source into the open project and out of it again. */
import type { Source } from '../../../shared/lab/model.ts'
import { setSourceUse } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'
import { titleOf } from './rows.ts'

/** Takes a source out of the open project. It stays in the lab, and so do its links. */
export async function leaveSource(workspace: Workspace, source: Source): Promise<void> {
  if (!(await setSourceUse(workspace, source, false))) return
  if (workspace.state.source === source.id) workspace.set({ source: null })
  workspace.say('done', `“${titleOf(source)}” was taken out of this project. It stays in the lab.`, {
    word: 'Take it back in',
    onAct: () => void joinSource(workspace, source),
  })
}

/** Takes a source of the lab into the open project. */
export async function joinSource(workspace: Workspace, source: Source): Promise<void> {
  // Another window may have changed it since it was read.
  const now = (await workspace.requireLab().queries.findSource(source.id)) ?? source
  if (await setSourceUse(workspace, now, true))
    workspace.say('done', `“${titleOf(now)}” is a source of this project too.`)
}
