import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import {
  IntakeCancelled,
  takeInByOneWorker,
  type IntakeMessage,
  type IntakeProgress,
  type IntakeTask,
  type IntakeWorker,
} from '../../../../renderer/workers/intake.ts'

interface FakeWorker extends IntakeWorker {
  readonly sent: { task: IntakeTask; transfer: ArrayBuffer[] }[]
  say(data: IntakeMessage): void
  isOver: boolean
}

/** Workers that answer when the test says so. */
function setUp() {
  const workers: FakeWorker[] = []
  const start = (): FakeWorker => {
    const worker: FakeWorker = {
      onmessage: null,
      onerror: null,
      sent: [],
      isOver: false,
      postMessage: (task, { transfer }) => void worker.sent.push({ task, transfer }),
      terminate: () => {
        worker.isOver = true
      },
      say: (data) => worker.onmessage?.({ data }),
    }
    workers.push(worker)
    return worker
  }
  return { workers, takeIn: takeInByOneWorker(start, { longest: 120_000, idle: 1000 }) }
}

const refusal = { ok: false, code: 'empty', sentence: 'Nothing in it.' } as const
const text = (name: string): IntakeTask => ({ kind: 'text', name, text: name })
const nothing = (): void => undefined

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  vi.useRealTimers()
})

test('progress is passed on, and one worker serves many things until it is idle', async () => {
  const { workers, takeIn } = setUp()
  const seen: IntakeProgress[] = []
  for (const name of ['a', 'b', 'c']) {
    const { answer } = takeIn(text(name), (one) => seen.push(one))
    workers[0]!.say({ kind: 'progress', progress: { doing: 'reading', share: 0.5 } })
    workers[0]!.say({ kind: 'answer', answer: refusal })
    expect(await answer).toEqual(refusal)
    vi.advanceTimersByTime(900)
  }
  expect(workers.length).toBe(1)
  expect(workers[0]!.sent.map(({ task }) => task.name)).toEqual(['a', 'b', 'c'])
  expect(seen.length).toBe(3)
  expect(workers[0]!.isOver).toBe(false)
  vi.advanceTimersByTime(200)
  expect(workers[0]!.isOver).toBe(true)
  void takeIn(text('d'), nothing)
  expect(workers.length).toBe(2)
})

test('bytes move over to the worker instead of being copied', () => {
  const { workers, takeIn } = setUp()
  const bytes = new Uint8Array(3)
  void takeIn({ kind: 'bytes', name: 'a', bytes }, nothing)
  expect(workers[0]!.sent[0]!.transfer).toEqual([bytes.buffer])
})

test('cancelling ends the worker at once and is a failure of its own kind; the next thing gets a new one', async () => {
  const { workers, takeIn } = setUp()
  const { answer, cancel } = takeIn(text('a'), nothing)
  cancel()
  expect(workers[0]!.isOver).toBe(true)
  await expect(answer).rejects.toBeInstanceOf(IntakeCancelled)
  const next = takeIn(text('b'), nothing)
  workers[1]!.say({ kind: 'answer', answer: refusal })
  expect(await next.answer).toEqual(refusal)
  // Calling off what is through touches nobody else.
  cancel()
  expect(workers[1]!.isOver).toBe(false)
})

test('what takes longer than the bound is refused by its name, and its worker ends', async () => {
  const { workers, takeIn } = setUp()
  const { answer } = takeIn(text('endless.pdf'), nothing)
  vi.advanceTimersByTime(119_999)
  expect(workers[0]!.isOver).toBe(false)
  vi.advanceTimersByTime(1)
  expect(await answer).toMatchObject({ ok: false, code: 'too-long' })
  expect(((await answer) as { sentence: string }).sentence).toMatch(/“endless.pdf”.*120 seconds.*unchanged/)
  expect(workers[0]!.isOver).toBe(true)
})

test('a worker that breaks or cannot start is a bug that is thrown', async () => {
  for (const fail of [
    (worker: FakeWorker) => worker.say({ kind: 'broken', reason: 'boom' }),
    (worker: FakeWorker) => worker.onerror?.({ message: 'boom' }),
  ]) {
    const { workers, takeIn } = setUp()
    const { answer } = takeIn(text('a'), nothing)
    fail(workers[0]!)
    await expect(answer).rejects.toThrow('boom')
    expect(workers[0]!.isOver).toBe(true)
  }
})
