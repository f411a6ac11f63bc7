import { ChangeSet } from '@codemirror/state'
import { expect, it } from 'vitest'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { DRAFT_DELAY, TextSession } from '../../../../renderer/editor/textSession.ts'
import { addProcedure, addProject, addStep } from '../../../../shared/lab/acts.ts'
import type { WindowId } from '../../../../shared/lab/ids.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

/** A lab on a disk so busy that a draft falls due while the answer to a commit is under way. */
function withSlowCommits(lab: OpenLab, ms: number): void {
  const commit = lab.committer.commit.bind(lab.committer)
  lab.committer.commit = async (...given) => {
    const result = await commit(...given)
    await pause(ms)
    return result
  }
}

it('a draft that falls due while its words are being committed does not outlive them', async () => {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const procedure = addProcedure(around, project.id, 'Move')
  const step = addStep(around, procedure.procedure.id, 'a0')
  await lab.committer.commitAll([change, procedure.change, step.change])
  withSlowCommits(lab, DRAFT_DELAY + 200)
  const node = { kind: 'part', id: step.part.id } as const
  const options = { window: around.ids.make<WindowId>(), cutsByItself: true }
  const silent = { onRemote: () => undefined, onState: () => undefined, onCut: () => undefined }
  const session = (await TextSession.open(lab, node, options, silent))!
  session.type(ChangeSet.of({ from: 0, insert: 'sync' }, 0))
  await session.cut()
  await pause(DRAFT_DELAY)
  expect(await lab.queries.drafts()).toEqual([])
  await session.close()
  const again = (await TextSession.open(lab, node, options, silent))!
  expect(again.text).toBe('sync')
  await again.close()
})
