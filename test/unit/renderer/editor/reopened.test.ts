import { ChangeSet } from '@codemirror/state'
import { expect, it } from 'vitest'
import { DRAFT_DELAY, TextSession } from '../../../../renderer/editor/textSession.ts'
import { Workspace, type WorkspaceParts } from '../../../../renderer/store/workspace.ts'
import { addProcedure, addProject, addStep } from '../../../../shared/lab/acts.ts'
import type { WindowId } from '../../../../shared/lab/ids.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

it('a text that is opened again while its words are still being written down has them once', async () => {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const procedure = addProcedure(around, project.id, 'Move')
  const step = addStep(around, procedure.procedure.id, 'a0')
  await lab.committer.commitAll([change, procedure.change, step.change])
  const node = { kind: 'part', id: step.part.id } as const
  const window = around.ids.make<WindowId>()
  const silent = { onRemote: () => undefined, onState: () => undefined, onCut: () => undefined }
  const open = async (): Promise<TextSession> =>
    (await TextSession.open(lab, node, { window, cutsByItself: true }, silent))!
  const workspace = new Workspace({ window } as WorkspaceParts)
  workspace.set({ lab })

  const first = await open()
  const remove = workspace.addSession(first)
  first.type(ChangeSet.of({ from: 0, insert: 'sync' }, 0))
  await pause(DRAFT_DELAY + 100)
  expect(await lab.queries.drafts()).toHaveLength(1)
  const commit = lab.committer.commit.bind(lab.committer)
  lab.committer.commit = async (...given) => {
    await pause(200)
    return commit(...given)
  }
  const closing = first.close().finally(remove)
  await workspace.settleText(node.id)
  const second = await open()
  await closing
  await second.pull()
  await second.close()
  expect(second.text).toBe('sync')
  expect((await lab.queries.standing(node.id))?.text).toBe('sync')
})
