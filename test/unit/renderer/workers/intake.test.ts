import { expect, test } from 'vitest'
import {
  IntakeCancelled,
  takeInByWorker,
  type IntakeMessage,
  type IntakeProgress,
  type IntakeTask,
  type IntakeWorker,
} from '../../../../renderer/workers/intake.ts'

function fakeWorker() {
  const sent: { task: IntakeTask; transfer: ArrayBuffer[] }[] = []
  let isOver = false
  const worker: IntakeWorker = {
    onmessage: null,
    onerror: null,
    postMessage: (task, { transfer }) => void sent.push({ task, transfer }),
    terminate: () => {
      isOver = true
    },
  }
  const say = (data: IntakeMessage) => worker.onmessage?.({ data })
  return { worker, sent, say, isOver: () => isOver }
}

const refusal = { ok: false, code: 'empty', sentence: 'Nothing in it.' } as const

test('progress is passed on, the answer ends the worker', async () => {
  const { worker, say, isOver } = fakeWorker()
  const seen: IntakeProgress[] = []
  const { answer } = takeInByWorker(
    { kind: 'text', name: 'a', text: 'b' },
    (one) => seen.push(one),
    () => worker,
  )
  say({ kind: 'progress', progress: { doing: 'reading', share: 0.5 } })
  expect(isOver()).toBe(false)
  say({ kind: 'answer', answer: refusal })
  expect(await answer).toEqual(refusal)
  expect(seen).toEqual([{ doing: 'reading', share: 0.5 }])
  expect(isOver()).toBe(true)
})

test('bytes move over to the worker instead of being copied', () => {
  const { worker, sent } = fakeWorker()
  const bytes = new Uint8Array(3)
  takeInByWorker(
    { kind: 'bytes', name: 'a', bytes },
    () => undefined,
    () => worker,
  )
  expect(sent[0]!.transfer).toEqual([bytes.buffer])
})

test('cancelling ends the worker and is a failure of its own kind', async () => {
  const { worker, isOver } = fakeWorker()
  const { answer, cancel } = takeInByWorker(
    { kind: 'text', name: 'a', text: 'b' },
    () => undefined,
    () => worker,
  )
  cancel()
  await expect(answer).rejects.toBeInstanceOf(IntakeCancelled)
  expect(isOver()).toBe(true)
})

test('a worker that breaks or cannot start is a bug that is thrown', async () => {
  for (const fail of [
    ({ say }: ReturnType<typeof fakeWorker>) => say({ kind: 'broken', reason: 'boom' }),
    ({ worker }: ReturnType<typeof fakeWorker>) => worker.onerror?.({ message: 'boom' }),
  ]) {
    const fake = fakeWorker()
    const { answer } = takeInByWorker(
      { kind: 'text', name: 'a', text: 'b' },
      () => undefined,
      () => fake.worker,
    )
    fail(fake)
    await expect(answer).rejects.toThrow('boom')
    expect(fake.isOver()).toBe(true)
  }
})
