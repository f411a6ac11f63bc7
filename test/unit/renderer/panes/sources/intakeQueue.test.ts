import { describe, expect, test, vi } from 'vitest'
import {
  IntakeQueue,
  type IntakeItem,
  type QueueParts,
} from '../../../../../renderer/panes/sources/intakeQueue.ts'
import {
  IntakeCancelled,
  type IntakeAnswer,
  type IntakeProgress,
  type IntakeTask,
} from '../../../../../renderer/workers/intake.ts'

const item = (name: string, rescue: string | null = null): IntakeItem<string> => ({
  place: 'project',
  wayIn: 'file',
  task: { kind: 'text', name, text: name },
  title: null,
  address: null,
  rescue,
})

const taken = (title: string): IntakeAnswer => ({
  ok: true,
  title,
  address: null,
  kind: 'text',
  text: title,
  mediaType: 'text/plain',
  notes: [],
  bytes: new Uint8Array(),
  sha256: 'x',
})

interface Running {
  readonly task: IntakeTask
  readonly tell: (progress: IntakeProgress) => void
  readonly answer: (answer: IntakeAnswer) => void
  readonly break: (error: unknown) => void
}

/** A queue whose work is ended by the test. */
function setUp(parts: Partial<QueueParts<string>> = {}) {
  const running: Running[] = []
  const kept: string[] = []
  const through: number[] = []
  const queue = new IntakeQueue<string>({
    takeIn: (task, tell) => {
      let cancel = (): void => undefined
      const answer = new Promise<IntakeAnswer>((resolve, reject) => {
        cancel = () => reject(new IntakeCancelled())
        running.push({ task, tell, answer: resolve, break: reject })
      })
      return { answer, cancel: () => cancel() }
    },
    keep: (_item, { title }) => {
      kept.push(title)
      return Promise.resolve({ ok: true })
    },
    onThrough: (count) => through.push(count),
    ...parts,
  })
  return { queue, running, kept, through, state: () => queue.store.getState() }
}

describe('taking things in', () => {
  test('one is under way at a time, in the order in which they were added', async () => {
    const { queue, running, kept, through, state } = setUp()
    const all = Promise.all([queue.add(item('a')), queue.add(item('b')), queue.add(item('c'))])
    expect(running.length).toBe(1)
    expect(state()).toMatchObject({ current: { name: 'a', share: null }, waiting: 2 })
    for (const at of [0, 1, 2]) {
      await vi.waitFor(() => expect(running.length).toBe(at + 1))
      running[at]!.answer(taken(running[at]!.task.name))
    }
    expect(await all).toEqual(['kept', 'kept', 'kept'])
    expect(kept).toEqual(['a', 'b', 'c'])
    await vi.waitFor(() => expect(through).toEqual([3]))
    expect(state()).toEqual({ current: null, waiting: 0, problems: [] })
  })

  test('progress is shown with what is being done', () => {
    const { queue, running, state } = setUp()
    void queue.add(item('log'))
    running[0]!.tell({ doing: 'reading', share: 0.4 })
    expect(state().current).toEqual({ name: 'log', words: 'Reading log', share: 0.4 })
    running[0]!.tell({ doing: 'cleaning', share: null })
    expect(state().current).toEqual({ name: 'log', words: 'Cleaning log', share: null })
  })

  test('a refusal is a sentence that stays, and the next one goes on', async () => {
    const { queue, running, kept, state } = setUp()
    const first = queue.add(item('bad', 'the words'))
    const second = queue.add(item('good'))
    running[0]!.answer({ ok: false, code: 'empty', sentence: 'Nothing in it.' })
    expect(await first).toBe('refused')
    await vi.waitFor(() => expect(running.length).toBe(2))
    running[1]!.answer(taken('good'))
    expect(await second).toBe('kept')
    expect(kept).toEqual(['good'])
    expect(state().problems).toEqual([{ id: 1, sentence: 'Nothing in it.', rescue: 'the words' }])
    queue.dismiss(1)
    expect(state().problems).toEqual([])
  })

  test('what could not be kept is told like a refusal', async () => {
    const { queue, running, state } = setUp({
      keep: () => Promise.resolve({ ok: false, sentence: 'No room.' }),
    })
    const done = queue.add(item('a', 'words'))
    running[0]!.answer(taken('a'))
    expect(await done).toBe('refused')
    expect(state().problems).toMatchObject([{ sentence: 'No room.', rescue: 'words' }])
  })

  test('what is called off is neither kept nor told, and what waits goes on', async () => {
    const { queue, running, kept, state } = setUp()
    const first = queue.add(item('a'))
    const second = queue.add(item('b'))
    queue.cancel()
    expect(await first).toBe('cancelled')
    await vi.waitFor(() => expect(running.length).toBe(2))
    running[1]!.answer(taken('b'))
    expect(await second).toBe('kept')
    expect(kept).toEqual(['b'])
    expect(state().problems).toEqual([])
  })

  test('all can be called off at once', async () => {
    const { queue, running, state } = setUp()
    const all = [queue.add(item('a')), queue.add(item('b')), queue.add(item('c'))]
    queue.cancelAll()
    expect(await Promise.all(all)).toEqual(['cancelled', 'cancelled', 'cancelled'])
    expect(running.length).toBe(1)
    await vi.waitFor(() => expect(state()).toEqual({ current: null, waiting: 0, problems: [] }))
  })

  test('a worker that breaks ends in a sentence with the name, and the queue goes on', async () => {
    const logged = vi.spyOn(console, 'error').mockImplementation(() => undefined)
    const { queue, running, state } = setUp()
    const first = queue.add(item('odd.html'))
    running[0]!.break(new Error('boom'))
    expect(await first).toBe('refused')
    expect(state().problems[0]!.sentence).toContain('“odd.html”')
    expect(logged).toHaveBeenCalledOnce()
    const second = queue.add(item('b'))
    await vi.waitFor(() => expect(running.length).toBe(2))
    running[1]!.answer(taken('b'))
    expect(await second).toBe('kept')
    logged.mockRestore()
  })

  test('cancelling with nothing under way does nothing', () => {
    const { queue, state } = setUp()
    queue.cancel()
    queue.cancelAll()
    expect(state()).toEqual({ current: null, waiting: 0, problems: [] })
  })
})
