import { describe, expect, it } from 'vitest'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { LabRegistry } from '../../../../renderer/db/labs.ts'
import { beginFinding, findAskerOf } from '../../../../renderer/find/asking.ts'
import { Workspace, type WorkspaceParts } from '../../../../renderer/store/workspace.ts'
import { FindAsker, type FindRequest, type FindWorker } from '../../../../renderer/workers/find.ts'
import type { WindowId } from '../../../../shared/lab/ids.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'

/** A worker that is told what it is to do, and does nothing. */
function createWorker() {
  const told: FindRequest[] = []
  const worker: FindWorker & { told: FindRequest[]; isOver: boolean } = {
    told,
    isOver: false,
    onmessage: null,
    onerror: null,
    postMessage: (request) => told.push(request),
    terminate: () => (worker.isOver = true),
  }
  return worker
}

async function openWindow() {
  const around = repeatableSurroundings()
  const storage = memoryStorage()
  const labs = [await openTestLab(around, storage), await openTestLab(around, storage)]
  const workspace = new Workspace({
    registry: new LabRegistry(storage),
    openLab: (id: string) => Promise.resolve(labs.find((lab) => lab.id === id)!),
    window: around.ids.make<WindowId>(),
  } as unknown as WorkspaceParts)
  return { workspace, labs }
}

describe('the worker that finds', () => {
  it('is begun for each lab once it is open and nothing else is to be done, and ended with it', async () => {
    const { workspace, labs } = await openWindow()
    const workers: ReturnType<typeof createWorker>[] = []
    const makeAsker = (lab: OpenLab): FindAsker =>
      new FindAsker(lab.id, () => {
        const worker = createWorker()
        workers.push(worker)
        return worker
      })
    const waiting: (() => void)[] = []
    beginFinding(
      workspace,
      (act) => waiting.push(act),
      (one) => findAskerOf(one, makeAsker),
    )
    await workspace.openLab(labs[0]!.id)
    expect([waiting.length, workers.length]).toEqual([1, 0])
    waiting.shift()!()
    expect(workers.map(({ told }) => told)).toEqual([[{ call: 'open', number: 1, argument: labs[0]!.id }]])
    await workspace.openLab(labs[1]!.id)
    expect(workers[0]!.isOver).toBe(true)
    waiting.shift()!()
    expect(workers[1]!.told).toEqual([{ call: 'open', number: 1, argument: labs[1]!.id }])
  })

  it('tells the screen how far building is, and is begun anew where it broke', async () => {
    const { labs } = await openWindow()
    const workers: ReturnType<typeof createWorker>[] = []
    const asker = new FindAsker(labs[0]!.id, () => {
      workers.push(createWorker())
      return workers.at(-1)!
    })
    const first = asker.ask({ typed: 'disk', limit: 5, now: 0 })
    workers[0]!.onmessage!({ data: { kind: 'progress', share: 0.5 } })
    expect(asker.building.getState()).toEqual({ share: 0.5 })
    workers[0]!.onmessage!({ data: { kind: 'broken', number: 2, reason: 'the disk is gone' } })
    await expect(first).rejects.toThrow('the disk is gone')
    expect([workers[0]!.isOver, asker.building.getState().share]).toEqual([true, null])
    const second = asker.commands('df', 3)
    expect(workers[1]!.told.map(({ call }) => call)).toEqual(['open', 'commands'])
    const answer = { commands: [], count: 0, isWhole: true }
    workers[1]!.onmessage!({ data: { kind: 'answer', number: 4, answer } })
    expect(await second).toEqual(answer)
  })
})
