import { ChangeSet } from '@codemirror/state'
import { expect, it } from 'vitest'
import { DRAFT_DELAY, TextSession, type SessionState } from '../../../../renderer/editor/textSession.ts'
import { Workspace, type WorkspaceParts } from '../../../../renderer/store/workspace.ts'
import { addProcedure, addProject, addStep, removeSteps } from '../../../../shared/lab/acts.ts'
import type { WindowId } from '../../../../shared/lab/ids.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

async function world() {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const procedure = addProcedure(around, project.id, 'Move')
  const step = addStep(around, procedure.procedure.id, 'a0')
  await lab.committer.commitAll([change, procedure.change, step.change])
  const node = { kind: 'part', id: step.part.id } as const
  const window = around.ids.make<WindowId>()
  const states: SessionState[] = []
  const silent = {
    onRemote: () => undefined,
    onState: (state: SessionState) => states.push(state),
    onCut: () => undefined,
  }
  const open = async (): Promise<TextSession> =>
    (await TextSession.open(lab, node, { window, cutsByItself: true }, silent))!
  const workspace = new Workspace({ window } as WorkspaceParts)
  workspace.set({ lab })
  return { around, lab, step, node, states, open, workspace }
}

it('a text that is opened again while its words are still being written down has them once', async () => {
  const { lab, node, open, workspace } = await world()

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

it('a text that is opened again after its words could not be committed has them', async () => {
  const { lab, node, open, workspace } = await world()
  const first = await open()
  const remove = workspace.addSession(first)
  first.type(ChangeSet.of({ from: 0, insert: 'sync' }, 0))
  const commit = lab.committer.commit.bind(lab.committer)
  lab.committer.commit = () => Promise.resolve({ ok: false, code: 'disk-full', sentence: 'No room.' })
  const saveDraft = lab.saveDraft.bind(lab)
  lab.saveDraft = async (draft) => {
    await pause(100)
    return saveDraft(draft)
  }
  const closing = first.close().finally(remove)
  await workspace.settleText(node.id)
  const second = await open()
  expect(second.text).toBe('sync')
  lab.committer.commit = commit
  await closing
  await second.close()
  expect((await lab.queries.standing(node.id))?.text).toBe('sync')
})

it('what was typed into a text that is removed meanwhile is told when that is found', async () => {
  for (const finds of ['pull', 'cut'] as const) {
    const { around, lab, step, states, open } = await world()
    const session = await open()
    session.type(ChangeSet.of({ from: 0, insert: 'sync' }, 0))
    const parts = await lab.queries.standingParts([step.part])
    const removed = await lab.committer.commit(removeSteps(around, [step.step], parts))
    expect(removed.ok).toBe(true)
    await session[finds]()
    expect(states.filter(({ kind }) => kind === 'gone')).toEqual([{ kind: 'gone', typed: 'sync' }])
    await session.close()
  }
})
